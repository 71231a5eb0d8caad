// Jobs on which torque tools and a meter are used, the instruments entered over the interface.
import { uuidv7 } from "uuidv7";
import { expect } from "vitest";
import type { Client, TestService } from "./app.ts";
import { nextNumber } from "./stock.ts";
import { type Rows, rowsIn } from "./work-rows.ts";

const tighten = (id: string, title: string, points: number) => ({
  kind: "tighten",
  id,
  title,
  do: `${title}: 6 N·m`,
  holdPoint: true,
  points,
  unit: "N·m",
  limit: { min: 5, max: 7 },
});

export const TORQUE_PLAN = {
  schema: "plan/1",
  title: "Two groups of bolts",
  decisionRule: "simple",
  attributes: {},
  stages: [
    {
      id: "fix",
      title: "Fix",
      items: [tighten("shelf_bolts", "Shelf bolts", 4), tighten("cover_screws", "Cover screws", 6)],
    },
  ],
};

export interface Tightening {
  tool: string;
  takenAt: string;
  itemId?: string;
  fasteners?: number;
  settingNm?: number;
}

export function torqueWork(service: TestService, rows: Rows = rowsIn(service)) {
  const { people } = service.firm;
  const office = service.as(people.office);
  const installer = service.as(people.installer);
  return { office, installer, ...tools(office), ...tightenings(installer, rows) };
}

function tools(office: Client) {
  async function calibrate(id: string, calibratedOn: string, passed = true) {
    const body = { calibratedOn, passed, certificate: `K-${nextNumber()}` };
    const reply = await office.post(`/api/v1/instruments/${id}/calibrations`).send(body);
    expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  }

  async function tool(fields: object = {}, calibratedOn: string | null = "2026-02-02") {
    const own = { reference: `TW-${nextNumber()}`, serial: "TW4137" };
    const reply = await office.post("/api/v1/instruments").send({ ...WRENCH, ...own, ...fields });
    expect(reply.status, JSON.stringify(reply.body)).toBe(201);
    if (calibratedOn !== null) await calibrate(reply.body.id, calibratedOn);
    return reply.body as { id: string; reference: string };
  }

  const record = (id: string, body: object, client = office) =>
    client.post(`/api/v1/instruments/${id}/events`).send(body);
  const read = async (id: string) => (await office.get(`/api/v1/instruments/${id}`)).body;
  return { calibrate, tool, record, read };
}

const WRENCH = { name: "Torque wrench, 1 to 20 N·m", instrumentClass: "torque-wrench" };

function answerOf(one: Tightening) {
  const { tool: instrumentId, takenAt, itemId = "shelf_bolts", settingNm = 6 } = one;
  const fasteners = one.fasteners ?? (itemId === "shelf_bolts" ? 4 : 6);
  const points = Array.from({ length: fasteners }, (_, index) => index + 1);
  const value = { points, setting: { number: settingNm, unit: "N·m" } };
  return { id: uuidv7(), itemId, subject: "", takenAt, instrumentId, value };
}

function tightenings(installer: Client, rows: Rows) {
  async function place() {
    const site = await rows.site();
    const version = await rows.planVersion(TORQUE_PLAN);
    const jobId = await rows.job(site.id, version.id);
    return { jobId, siteId: site.id, planVersionId: version.id };
  }

  /** Submits one batch; the kept answers with their verdicts. */
  async function submit(jobId: string, ...batch: Tightening[]) {
    const answers = batch.map(answerOf);
    const reply = await installer.post(`/api/v1/jobs/${jobId}/answers`).send({ answers });
    expect(reply.status, JSON.stringify(reply.body)).toBe(201);
    return reply.body.answers as { id: string; verdict: { code: string; sentence: string } }[];
  }

  const codes = async (jobId: string, ...batch: Tightening[]) =>
    (await submit(jobId, ...batch)).map(({ verdict }) => verdict.code);

  /** Both items answered on one job, which is then closed. */
  async function closedJob(tool: string, takenAt: string) {
    const made = await place();
    const screws = { tool, takenAt, itemId: "cover_screws" };
    const kept = await submit(made.jobId, { tool, takenAt }, screws);
    const closed = await installer.post(`/api/v1/jobs/${made.jobId}/close-out`);
    expect(closed.status, JSON.stringify(closed.body)).toBe(201);
    return { ...made, answerIds: kept.map(({ id }) => id) };
  }
  return { place, submit, codes, closedJob };
}
