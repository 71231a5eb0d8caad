// Which instruments a packet lists: those booked, those used, and others that are in date.
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { addVisit } from "../support/booked-visits.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { rowsIn } from "../support/work-rows.ts";

const NOW = new Date("2026-11-26T09:00:00Z");
let now = NOW;
let service: TestService;
let job: PracticeJob;
let crewId: string;

beforeAll(async () => {
  service = await startService({ now: () => now });
  job = await addPracticeJob(service);
  crewId = await rowsIn(service).crew("North", [service.firm.people.installer.id]);
});
afterAll(() => service.stop());

const installer = () => service.as(service.firm.people.installer);
const read = () => installer().get(`/api/v1/tablet/packets/${job.jobId}`);
const firmId = () => service.firm.firmId;

interface Listed {
  id: string;
  name: string;
  class: string;
  booked: boolean;
  calibrations: object[];
}
const instrumentsOf = async (): Promise<Listed[]> => (await read()).body.instruments;

async function addInstrument(
  instrumentClass: string,
  due: string | undefined,
  fields: { retiredOn?: Date; passed?: boolean } = {},
): Promise<string> {
  const { passed = true, ...more } = fields;
  const id = uuidv7();
  await inFirm(service.db, firmId(), async (tx) => {
    const mark = id.slice(-8).toUpperCase();
    const own = { firmId: firmId(), id, reference: `X-${mark}`, serial: mark, instrumentClass };
    await tx.instrument.create({ data: { ...own, name: "Spare", ...more } });
    if (due === undefined) return;
    const on = { calibratedOn: new Date("2026-01-10"), dueOn: new Date(due) };
    const calibration = { firmId: firmId(), id: uuidv7(), instrumentId: id, ...on };
    await tx.calibration.create({ data: { ...calibration, passed, certificate: "K-2" } });
  });
  return id;
}

describe("the instruments of a packet", () => {
  test.each([
    ["due that very day", "2026-11-26", {}, true],
    ["due the day before", "2026-11-25", {}, false],
    ["never calibrated", undefined, {}, false],
    ["failed at its calibration", "2027-01-10", { passed: false }, false],
    ["retired that day", "2027-01-10", { retiredOn: new Date("2026-11-26") }, false],
    ["to be retired the day after", "2027-01-10", { retiredOn: new Date("2026-11-27") }, true],
  ])("of a class that the plan asks for: one %s (%s) is listed or not", async (...row) => {
    const [, due, fields, listed] = row;
    const id = await addInstrument("depth-gauge", due, fields);
    expect((await instrumentsOf()).some((instrument) => instrument.id === id)).toBe(listed);
  });

  test("of a class that no item asks for are left at home, unless booked", async () => {
    const id = await addInstrument("thermal-camera", "2027-01-10");
    const listed = async () => (await instrumentsOf()).find((instrument) => instrument.id === id);
    expect(await listed()).toBeUndefined();
    const span = { startsAt: "2026-11-26T12:00:00Z", endsAt: "2026-11-26T13:00:00Z" };
    await addVisit(service, { jobId: job.jobId, crewId, ...span, instrumentIds: [id] });
    expect(await listed()).toMatchObject({ booked: true, name: "Spare", class: "thermal-camera" });
  });

  test("that were used stay listed with their state when they run out", async () => {
    const answers = job
      .answers()
      .filter(({ instrumentId }) => instrumentId)
      .slice(0, 1);
    await installer().post(`/api/v1/jobs/${job.jobId}/answers`).send({ answers });
    const used = (await read()).body.answers.find(
      (answer: { instrumentId?: string }) => answer.instrumentId,
    );
    now = new Date("2031-01-01T09:00:00Z");
    const listed = await instrumentsOf();
    now = NOW;
    expect(listed.map(({ id }) => id)).toContain(used.instrumentId);
    expect(listed.find(({ id }) => id === used.instrumentId)?.calibrations).toHaveLength(1);
  });
});
