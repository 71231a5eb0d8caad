// That the soak's figures can be wrong: each fault, made by hand in the database, is counted.
import { afterAll, beforeAll, expect, test } from "vitest";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import { testTablet } from "../support/tablet-ops.ts";
import { type FaultStage, setFaultStage } from "./tablet-stage.ts";
import { countOps } from "./tally.ts";

let stage: FaultStage;
beforeAll(async () => {
  stage = await setFaultStage();
});
afterAll(() => stage.stop());

test.each([
  ["nothing", "SELECT $1::text", {}],
  ["an operation gone", "DELETE FROM tablet_op WHERE op_id = $1", { onServer: 1, lost: 1 }],
  [
    "one stored again under another id",
    `INSERT INTO tablet_op SELECT (jsonb_populate_record(t, jsonb_build_object('op_id',
      gen_random_uuid(), 'device_seq', 99))).* FROM tablet_op t WHERE op_id = $1`,
    { doubled: 1 },
  ],
  [
    "an effect that happened twice",
    `INSERT INTO answer SELECT (jsonb_populate_record(a, jsonb_build_object('id',
      gen_random_uuid(), 'receipt_order', 99))).* FROM answer a WHERE id = $1`,
    { doubled: 1 },
  ],
  [
    "another's words in its place",
    `UPDATE tablet_op t SET body = n.body,
      body_sha256 = encode(sha256(convert_to(n.body, 'UTF8')), 'hex')
      FROM (SELECT op_id, replace(body, '"first"', '"second"') AS body FROM tablet_op) n
      WHERE t.op_id = $1 AND n.op_id = t.op_id`,
    { overwritten: 1 },
  ],
  [
    "another's answer in its place",
    "UPDATE answer SET note = 'second' WHERE id = $1",
    { overwritten: 1 },
  ],
])("%s is counted as what it is", async (_fault, sql, expected) => {
  const job = await stage.job();
  const tablet = testTablet(job.jobId, stage.service.firm.people.installer.id);
  const [answer] = job.answers();
  const kept: TabletOp[] = [
    tablet.answer({ ...answer!, note: "first" }),
    tablet.keep({ kind: "snag", text: "Lid missing" }),
  ];
  await stage.direct.send(kept);
  const { client } = stage.tally;
  await client.query("SET session_replication_role = replica");
  await client.query(sql, [kept[0]?.opId]);
  const whole = { kept: 2, onServer: 2, lost: 0, doubled: 0, overwritten: 0 };
  expect(await countOps(client, kept)).toMatchObject({ ...whole, ...expected });
});
