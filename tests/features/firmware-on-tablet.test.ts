import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { addFleet, postTarget } from "../support/fleet.ts";
import { addJobRows } from "../support/rows.ts";

let service: TestService;
const NOW = new Date("2026-11-25T12:00:00Z");
beforeAll(async () => {
  service = await startService({ now: () => NOW });
});
afterAll(() => service.stop());

const PLAN = {
  schema: "plan/1",
  title: "Update visit",
  decisionRule: "simple",
  attributes: {},
  stages: [
    {
      id: "end",
      title: "End",
      items: [
        {
          id: "level",
          kind: "identify",
          what: "firmware-level",
          title: "Level",
          do: "Read the level off the unit.",
          holdPoint: true,
          repeat: { per: "unit" },
        },
      ],
    },
  ],
};

test("a level read on a tablet, and only that, takes the unit off the due list", async () => {
  const { modelId, unitIds } = await addFleet(service, "semver", ["1.0.0"]);
  const unitId = unitIds[0]!;
  await postTarget(service, { modelId, level: "1.1.0" });
  const { jobId } = await addJobRows(service, PLAN);
  const { firmId } = service.firm;
  await inFirm(service.db, firmId, (tx) =>
    tx.jobUnit.create({ data: { firmId, jobId, unitId, position: 1 } }),
  );
  const installer = service.as(service.firm.people.installer);
  const answer = async (text: string, takenAt: string) => {
    const value = { text };
    const answers = [{ id: uuidv7(), itemId: "level", subject: unitId, takenAt, value }];
    const reply = await installer.post(`/api/v1/jobs/${jobId}/answers`).send({ answers });
    expect(reply.status, JSON.stringify(reply.body)).toBeLessThan(300);
  };
  const due = async () =>
    (await installer.get(`/api/v1/firmware/due?modelId=${modelId}`)).body.items.length;
  await answer("1.0.5", "2026-11-25T10:00:00+00:00");
  expect(await due()).toBe(1);
  await answer("1.1.0", "2026-11-25T11:00:00+00:00");
  expect(await due()).toBe(0);
  await answer("1.0.9", "2026-11-25T10:30:00+00:00");
  expect(await due()).toBe(0);
  const readings = await inFirm(service.db, firmId, (tx) =>
    tx.firmwareReading.findMany({ where: { unitId }, orderBy: { readAt: "asc" } }),
  );
  expect(readings.map(({ level, source, flag }) => [level, source, flag])).toEqual([
    ["1.0.5", "tablet", null],
    ["1.0.9", "tablet", null],
    ["1.1.0", "tablet", null],
  ]);
  expect(readings.every((row) => row.jobId === jobId)).toBe(true);
});
