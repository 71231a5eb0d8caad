// The main job as one story, over HTTP alone. Anything that comes out otherwise than told is a
// surprise and ends it with an exit code that is not 0.
import { randomUUID } from "node:crypto";
import type { Account, Cast, Say, Stage } from "./cast.ts";
import { firmwareDue } from "./firmware-due.ts";
import { type Caller, callerFor, expectStatus, expectTrue } from "./http.ts";
import { addPeople, setStage } from "./set-up.ts";

export async function playMainJob(baseUrl: string, account: Account, say: Say): Promise<void> {
  const mark = randomUUID().slice(0, 6);
  const session = callerFor(baseUrl).post("/api/v1/session", account);
  const { accessToken, person } = await expectStatus(201, "sign in", session);
  const owner = callerFor(baseUrl, accessToken);
  say("sign in", `${account.email} as ${person.roles.join(", ")}`);
  const { cast, installerId } = await addPeople(baseUrl, owner, mark, say);
  const stage = await setStage(owner, cast, installerId, mark, say);
  const unitId = await receivePack(cast, stage, say);
  const jobId = await bookJob(cast, stage, unitId, say);
  await takeReadings(cast, stage, jobId, unitId, say);
  await refusedCloseOut(cast, jobId, say);
  await mend(cast, stage, jobId, unitId, say);
  await closeOut(cast, jobId, unitId, say);
  await firmwareDue(owner, cast, stage, unitId, say);
}

async function receivePack({ office }: Cast, { modelId }: Stage, say: Say): Promise<string> {
  const digits = String(Math.floor(Math.random() * 1e8)).padStart(8, "0");
  const misread = { modelId, serial: `FW${digits.slice(0, 7)}O` };
  const refused = await expectStatus(422, "misread serial", office.post("/api/v1/units", misread));
  say("goods-in", `${misread.serial} is refused: ${refused.errors[0].detail}`);
  const unit = await expectStatus(
    201,
    "unit",
    office.post("/api/v1/units", { modelId, serial: `FW${digits}` }),
  );
  say("goods-in", `${unit.serial} is received`);
  return unit.id;
}

async function bookJob(
  { office }: Cast,
  { siteId, planId, crewId }: Stage,
  unitId: string,
  say: Say,
): Promise<string> {
  const made = {
    siteId,
    kind: "install",
    title: "One pack in the garage",
    planId,
    units: [{ unitId }],
  };
  const job = await expectStatus(201, "job", office.post("/api/v1/jobs", made));
  const day = new Date(Date.now() + 86_400_000).toISOString().slice(0, 10);
  const local = { day, from: "08:30", to: "12:00" };
  await expectStatus(201, "visit", office.post(`/api/v1/jobs/${job.id}/visits`, { crewId, local }));
  say("booking", `${job.reference} "${job.title}", visit on ${day} 08:30 to 12:00`);
  const twice = await expectStatus(
    409,
    "double booking",
    office.post(`/api/v1/jobs/${job.id}/visits`, { crewId, local }),
  );
  say("booking", `the same hours again are refused: ${twice.detail}`);
  return job.id;
}

interface Taken {
  itemId: string;
  subject?: string;
  instrumentId?: string;
  value: object;
}

/** Times a second apart, ending now, so that the order of the readings is the order of the list. */
function submit(installer: Caller, jobId: string, taken: Taken[]) {
  const answers = taken.map((answer, index) => ({
    id: randomUUID(),
    takenAt: new Date(Date.now() - (taken.length - index) * 10).toISOString(),
    ...answer,
  }));
  return expectStatus(201, "answers", installer.post(`/api/v1/jobs/${jobId}/answers`, { answers }));
}

async function takeReadings(
  { installer }: Cast,
  stage: Stage,
  jobId: string,
  unitId: string,
  say: Say,
): Promise<void> {
  const { instruments } = stage;
  const pack = await installer.get(`/api/v1/units/${unitId}`);
  const kept = await submit(installer, jobId, [
    { itemId: "serial", subject: unitId, value: { text: pack.body.serial } },
    { itemId: "breaker_off", subject: unitId, value: { done: true } },
    {
      itemId: "pack_voltage",
      subject: unitId,
      instrumentId: instruments.multimeter,
      value: { number: "36,9", unit: "V" },
    },
    {
      itemId: "insulation",
      instrumentId: instruments.lapsedTester,
      value: { number: ">999", unit: "MOhm" },
    },
  ]);
  for (const { itemId, verdict } of kept.answers)
    say("reading", `${itemId}: ${verdict.outcome}. ${verdict.sentence}`);
}

async function refusedCloseOut({ installer }: Cast, jobId: string, say: Say): Promise<void> {
  const refused = await expectStatus(
    409,
    "early close-out",
    installer.post(`/api/v1/jobs/${jobId}/close-out`),
  );
  const codes = refused.blockers.map((blocker: { code: string }) => blocker.code).sort();
  expectTrue(
    codes.join() === "failed,instrument-out-of-calibration,missing",
    `the close-out should be refused for three reasons, not ${codes.join()}`,
  );
  say("close-out", `refused: ${refused.detail}`);
  for (const { title, sentence, toClear } of refused.blockers) {
    say("blocker", `${title}: ${sentence} To clear it: ${toClear}`);
  }
}

async function mend(
  { installer }: Cast,
  { instruments }: Stage,
  jobId: string,
  unitId: string,
  say: Say,
): Promise<void> {
  const kept = await submit(installer, jobId, [
    {
      itemId: "pack_voltage",
      subject: unitId,
      instrumentId: instruments.multimeter,
      value: { number: "49.6", unit: "V" },
    },
    {
      itemId: "insulation",
      instrumentId: instruments.tester,
      value: { number: ">999", unit: "MOhm" },
    },
    {
      itemId: "bracket",
      instrumentId: instruments.wrench,
      value: { points: [1, 2, 3, 4], setting: { number: 62, unit: "lbf·in" } },
    },
  ]);
  for (const { itemId, verdict } of kept.answers) {
    say("mended", `${itemId}: ${verdict.outcome}. ${verdict.sentence}`);
    expectTrue(verdict.clears, `${itemId} should be met now`);
  }
}

async function closeOut(
  { installer }: Cast,
  jobId: string,
  unitId: string,
  say: Say,
): Promise<void> {
  const closed = await expectStatus(
    201,
    "close-out",
    installer.post(`/api/v1/jobs/${jobId}/close-out`),
  );
  say("close-out", `closed; head of the ledger ${closed.ledgerSha256}`);
  const unit = await expectStatus(200, "unit", installer.get(`/api/v1/units/${unitId}`));
  expectTrue(unit.state === "installed", `the pack should be installed, not ${unit.state}`);
  const late = {
    itemId: "breaker_off",
    subject: unitId,
    value: { done: true },
    id: randomUUID(),
    takenAt: new Date().toISOString(),
  };
  await expectStatus(
    409,
    "late answer",
    installer.post(`/api/v1/jobs/${jobId}/answers`, { answers: [late] }),
  );
  say("close-out", "a closed job takes no more answers");
}
