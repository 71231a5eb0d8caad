// Behind PgBouncer in transaction mode each transaction may meet another connection of the server:
// what one left there must not reach the next. Debian's package; skipped where it is not installed.
import { pino } from "pino";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { readConfig } from "../../src/config.ts";
import { connect } from "../../src/db/client.ts";
import { openDatabase } from "../../src/db/open.ts";
import { inFirm, inFirmPipelined } from "../../src/db/scope.ts";
import { startRuns } from "../../src/runs/start.ts";
import { readSecrets } from "../../src/secrets.ts";
import { startService, type TestService } from "../support/app.ts";
import { type TestDatabase, testDatabase } from "../support/database.ts";
import { temporaryFolder } from "../support/demo.ts";
import { addProvenJob } from "../support/evidence-bag.ts";
import { hasPooler, type Pooler, startPooler } from "../support/pooler.ts";
import { mailConfig } from "../support/smtp.ts";

const CONNECTIONS = 3;
const AT_ONCE = 60;

test("behind a pooler, migrations need the owner's address on the server itself", async () => {
  const database = await testDatabase();
  const config = readConfig(
    { DATABASE_URL: database.appUrl, DATABASE_POOLED: "true" },
    ".data/tests",
  );
  await expect(openDatabase(config, readSecrets(temporaryFolder()))).rejects.toThrow(
    /With DATABASE_POOLED.*DATABASE_OWNER_URL/,
  );
  await database.drop();
});

describe.skipIf(!hasPooler)("behind PgBouncer in transaction mode", () => {
  let pooler: Pooler;
  let direct: TestDatabase;
  let service: TestService;
  beforeAll(async () => {
    direct = await testDatabase();
    pooler = await startPooler(inject("serverUrl"), CONNECTIONS);
    const db = connect({ url: pooler.through(direct.appUrl), poolSize: 40, pooled: true });
    const drop = async (): Promise<void> => {
      await db.close();
      await pooler.stop();
      await direct.drop();
    };
    service = await startService({ database: { ...direct, db, drop } });
  });
  afterAll(() => service?.stop());

  test("a practice job is worked and closed, answers through pipelined transactions", async () => {
    const { jobId } = await addProvenJob(service);
    const office = service.as(service.firm.people.office);
    expect((await office.get(`/api/v1/jobs/${jobId}`)).body.state).toBe("closed");
  });

  test("firms that take turns on the same connections never see each other", async () => {
    const other = await service.addFirm("larch");
    const firms = [service.firm.firmId, other.firmId];
    const seen = await Promise.all(
      Array.from({ length: AT_ONCE }, async (_, n) => {
        const firmId = firms[n % 2]!;
        const names = await inFirm(service.db, firmId, (tx) => tx.person.findMany());
        const [piped] = await inFirmPipelined(service.db, firmId, (pipe) =>
          pipe.commit({ name: "count_people", text: "SELECT firm_id FROM person" }),
        );
        const rows: { firm_id: string }[] = piped?.rows ?? [];
        return [...names.map((row) => row.firmId), ...rows.map((row) => row.firm_id)].every(
          (id) => id === firmId,
        );
      }),
    );
    expect(seen).toEqual(Array(AT_ONCE).fill(true));
    const unset = await service.db.pool.query("SELECT count(*)::int AS people FROM person");
    expect(unset.rows).toEqual([{ people: 0 }]);
  });

  test("no more connections than the pooler's are made, and times come in UTC", async () => {
    const asked = Array.from({ length: AT_ONCE }, () =>
      service.db.pool.query("SELECT pg_backend_pid() AS pid, current_setting('TimeZone') AS zone"),
    );
    const rows = (await Promise.all(asked)).flatMap((result) => result.rows);
    expect(new Set(rows.map(({ zone }) => zone))).toEqual(new Set(["UTC"]));
    expect(new Set(rows.map(({ pid }) => pid)).size).toBeLessThanOrEqual(CONNECTIONS);
  });

  test("the scheduled work runs through it", async () => {
    const own = { db: service.db, ownerUrl: direct.ownerUrl, url: pooler.through(direct.appUrl) };
    const runs = await startRuns(own, mailConfig({}), pino({ level: "silent" }));
    await runs.stop();
    const { rows } = await service.db.pool.query(
      "SELECT count(*)::int AS runs FROM pgboss.schedule",
    );
    expect(rows[0].runs).toBeGreaterThan(5);
  });
});
