import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { recordFirmwareReading } from "../../src/features/firmware/level-store.ts";
import { startService, type TestService } from "../support/app.ts";
import { addFleet, postTarget } from "../support/fleet.ts";
import { pointers } from "../support/reading.ts";
import { addJobRows } from "../support/rows.ts";

let service: TestService;
const NOW = new Date("2026-11-25T12:00:00Z");
beforeAll(async () => {
  service = await startService({ now: () => NOW });
});
afterAll(() => service.stop());

const installer = () => service.as(service.firm.people.installer);
const newUnit = async (level: string | null = "1.0.0") =>
  (await addFleet(service, "semver", [level])).unitIds[0]!;
const read = (unitId: string, level: string, readAt: string, more: object = {}) =>
  installer()
    .post(`/api/v1/units/${unitId}/firmware-readings`)
    .send({ level, readAt, ...more });
const unitOf = (unitId: string) =>
  inFirm(service.db, service.firm.firmId, (tx) =>
    tx.unit.findFirstOrThrow({ where: { id: unitId } }),
  );

describe("a firmware reading", () => {
  test("takes the unit off the due list, and one that goes back puts it on", async () => {
    const { modelId, unitIds } = await addFleet(service, "semver", ["1.0.0"]);
    const unitId = unitIds[0]!;
    await postTarget(service, { modelId, level: "1.1.0" });
    const dueCount = async () =>
      (await installer().get(`/api/v1/firmware/due?modelId=${modelId}`)).body.items.length;
    expect(await dueCount()).toBe(1);
    const up = await read(unitId, "1.1.0", "2026-11-25T10:00:00Z");
    expect([up.status, up.body.flag, up.body.source]).toEqual([201, null, "api"]);
    expect(await dueCount()).toBe(0);
    const back = await read(unitId, "1.0.0", "2026-11-25T11:00:00Z", { source: "import" });
    expect([back.status, back.body.flag, back.body.source]).toEqual([201, "backwards", "import"]);
    expect(await dueCount()).toBe(1);
  });

  test("that comes late is kept in its place and does not move the unit", async () => {
    const unitId = await newUnit();
    await read(unitId, "1.5.0", "2026-11-25T10:00:00Z");
    const late = await read(unitId, "1.2.0", "2026-11-20T10:00:00Z");
    // 1.0.0 in January, 1.2.0 on the 20th, 1.5.0 on the 25th: nothing went backwards.
    expect([late.status, late.body.flag]).toEqual([201, null]);
    expect((await unitOf(unitId)).firmwareLevel).toBe("1.5.0");
    const lower = await read(unitId, "1.1.0", "2026-11-22T10:00:00Z");
    expect(lower.body.flag).toBe("backwards");
    expect((await unitOf(unitId)).firmwareLevel).toBe("1.5.0");
  });

  test("that cannot be ordered is kept and flagged, and the unit says so", async () => {
    const unitId = await newUnit();
    const reply = await read(unitId, "spring build", "2026-11-25T10:00:00Z");
    expect([reply.status, reply.body.flag]).toEqual([201, "not-orderable"]);
    expect(await unitOf(unitId)).toMatchObject({
      firmwareLevel: "spring build",
      firmwareKey: null,
    });
  });

  test("is kept in the unit's life with who read it", async () => {
    const unitId = await newUnit(null);
    await read(unitId, "1.2.0", "2026-11-25T10:00:00Z");
    const life = await installer().get(`/api/v1/units/${unitId}/life`);
    expect(life.status, JSON.stringify(life.body)).toBe(200);
    expect(life.body.firmwareReadings).toHaveLength(1);
    expect(life.body.firmwareReadings[0]).toMatchObject({ level: "1.2.0", source: "api" });
  });

  test("on a job goes on that job's ledger; a job that is not open refuses it", async () => {
    const unitId = await newUnit();
    const { jobId } = await addJobRows(service, { schema: "plan/1", stages: [] });
    const reply = await read(unitId, "1.2.0", "2026-11-25T10:00:00Z", { jobId });
    expect([reply.status, reply.body.jobId]).toEqual([201, jobId]);
    const { firmId } = service.firm;
    const entries = await inFirm(service.db, firmId, (tx) =>
      tx.ledgerEntry.findMany({ where: { firmId, jobId } }),
    );
    expect(entries.map(({ kind }) => kind)).toEqual(["firmware.read"]);
    expect(JSON.parse(entries[0]!.text).body).toMatchObject({ unitId, level: "1.2.0", flag: null });
    await inFirm(service.db, firmId, (tx) =>
      tx.job.update({ where: { firmId_id: { firmId, id: jobId } }, data: { state: "cancelled" } }),
    );
    const refused = await read(unitId, "1.3.0", "2026-11-25T11:00:00Z", { jobId });
    expect([refused.status, refused.body.type]).toEqual([409, "/problems/job-not-open"]);
  });

  test("from the future is refused, five minutes of a fast clock aside", async () => {
    const unitId = await newUnit();
    expect((await read(unitId, "1.2.0", "2026-11-25T12:05:00Z")).status).toBe(201);
    const refused = await read(unitId, "1.2.0", "2026-11-25T12:05:01Z");
    expect([refused.status, pointers(refused)]).toEqual([422, ["/body/readAt"]]);
    // The fast clock's reading does not hide the next one.
    await read(unitId, "1.3.0", "2026-11-25T12:00:00Z");
    expect((await unitOf(unitId)).firmwareLevel).toBe("1.3.0");
  });

  test("needs a unit and a job of the firm, a level and a role", async () => {
    const unitId = await newUnit();
    const at = "2026-11-25T10:00:00Z";
    const other = await service.addFirm("birch");
    const theirs = service.as(other.people.installer);
    const path = `/api/v1/units/${unitId}/firmware-readings`;
    expect((await theirs.post(path).send({ level: "1.2.0", readAt: at })).status).toBe(404);
    const strangeJob = await read(unitId, "1.2.0", at, { jobId: other.firmId });
    expect([strangeJob.status, pointers(strangeJob)]).toEqual([422, ["/body/jobId"]]);
    const bad = await read(unitId, " ", "yesterday", { source: "tablet" });
    expect(pointers(bad)).toEqual(["/body/level", "/body/readAt", "/body/source"]);
    const auditor = service.as(service.firm.people.auditor);
    expect((await auditor.post(path).send({ level: "1.2.0", readAt: at })).status).toBe(403);
  });

  test("is kept once though it is sent twice under one key", async () => {
    const unitId = await newUnit();
    const send = () =>
      read(unitId, "1.2.0", "2026-11-25T10:00:00Z").set("idempotency-key", "reading-4711");
    const [one, two] = await Promise.all([send(), send()]);
    expect(one.body.id).toBe(two.body.id);
  });
});

test("readings of one unit that meet leave it at the latest of them", async () => {
  const unitId = await newUnit();
  const minutes = Array.from({ length: 8 }, (_value, index) => index);
  await Promise.all(
    minutes.map((minute) =>
      inFirm(service.db, service.firm.firmId, (tx) =>
        recordFirmwareReading(
          tx,
          {
            unitId,
            level: `1.${minute}.0`,
            readAt: new Date(`2026-11-25T10:0${minute}:00Z`),
            source: "api",
          },
          NOW,
        ),
      ),
    ),
  );
  expect((await unitOf(unitId)).firmwareLevel).toBe("1.7.0");
});
