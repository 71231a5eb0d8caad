// A tablet's operation stays as it came: everything here goes round the code.
import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob } from "../support/practice-job.ts";
import { heldOnClosedJob, sendOps, testTablet } from "../support/tablet-ops.ts";

let service: TestService;
let stored: TabletOp;
let held: TabletOp;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
  const job = await addPracticeJob(service);
  const tablet = testTablet(job.jobId, service.firm.people.installer.id);
  stored = tablet.answer(job.answers()[0]!);
  await sendOps(service, [stored]);
  held = (await heldOnClosedJob(service)).op;
});
afterAll(() => service.stop());

/** Undone afterwards; how many rows it changed, or why none. */
async function tryOut(url: string, sql: string, values: unknown[]): Promise<string> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    await client.query("BEGIN");
    await client.query("SELECT set_config('app.firm_id', $1, true)", [service.firm.firmId]);
    const { rowCount } = await client.query(sql, values);
    return `changed ${rowCount}`;
  } catch (error) {
    return (error as Error).message;
  } finally {
    await client.end();
  }
}

const DECIDE = `UPDATE tablet_op SET decided_at = now(), decided_by_id = person_id,
  decision = 'applied' WHERE op_id = $1`;

describe("a stored operation", () => {
  test.each([
    ["changed in its body", "UPDATE tablet_op SET body = '{}' WHERE op_id = $1"],
    ["moved to another outcome", "UPDATE tablet_op SET outcome = 'held' WHERE op_id = $1"],
    ["deleted", "DELETE FROM tablet_op WHERE op_id = $1"],
  ])("cannot be %s by the application's role, nor by the tables' owner", async (_what, sql) => {
    expect(await tryOut(service.appUrl, sql, [stored.opId])).toContain("permission denied");
    expect(await tryOut(service.ownerUrl, sql, [stored.opId])).toMatch(/decided once|kept as they/);
  });

  test("takes no decision: only what is held does", async () => {
    expect(await tryOut(service.appUrl, DECIDE, [stored.opId])).toContain("decided once");
    expect(await tryOut(service.appUrl, DECIDE, [held.opId])).toBe("changed 1");
  });

  test("holds the text that its hash is of", async () => {
    const copy = `INSERT INTO tablet_op SELECT (json_populate_record(o, json_build_object(
      'op_id', gen_random_uuid(), 'device_seq', 99, 'body', '{}'))).* FROM tablet_op o
      WHERE op_id = $1`;
    expect(await tryOut(service.appUrl, copy, [stored.opId])).toContain("violates check");
  });
});

test.each([
  ["tablet_quarantine", "why"],
  ["stage_time", "stage_id"],
])(
  "rows of %s are neither changed nor deleted by the application's role",
  async (table, column) => {
    const change = `UPDATE ${table} SET ${column} = 'x' WHERE firm_id = $1`;
    const removal = `DELETE FROM ${table} WHERE firm_id = $1`;
    for (const sql of [change, removal]) {
      expect(await tryOut(service.appUrl, sql, [service.firm.firmId])).toContain("denied");
    }
  },
);
