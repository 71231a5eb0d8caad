import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";
import { addJobRows } from "../support/rows.ts";
import {
  addModel,
  addSite,
  install,
  kindsOf,
  ledgerOf,
  type Made,
  moveUnit,
  readLife,
  receive,
  siteOf,
} from "../support/stock.ts";

let service: TestService;
let model: Made;
beforeAll(async () => {
  service = await startService();
  model = await addModel(service);
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const move = (unit: Made, what: "installation" | "removal" | "swap", body: object) =>
  moveUnit(service, unit, what, body);
const read = (unit: { id: string }) => readLife(service, unit);
const stock = () => receive(service, model.id);

describe("a removal", () => {
  test("clears site and bank, keeps the history and goes on the job's ledger", async () => {
    const { jobId, siteId } = await addJobRows(service, { stages: [] });
    const bank = await office().post("/api/v1/banks").send({ siteId, name: "Bank A" });
    const unit = await stock();
    const place = { bankId: bank.body.id, bankPosition: 1 };
    await install(service, unit, siteOf({ siteId }), place);
    const reply = await move(unit, "removal", { jobId, reason: "System taken down" });
    expect(reply.body).toMatchObject({
      state: "removed",
      siteId: null,
      bankId: null,
      bankPosition: null,
    });
    const last = (await read(unit)).events.at(-1);
    expect(last).toMatchObject({ kind: "removed", siteId, jobId, note: "System taken down" });
    const [entry] = await ledgerOf(service, jobId);
    expect(entry!.kind).toBe("unit.removed");
    expect(entry!.text).not.toContain("System taken down");
  });

  test("lets the unit be installed at another site", async () => {
    const unit = await stock();
    const second = await addSite(service);
    await install(service, unit, await addSite(service));
    await move(unit, "removal", { reason: "Customer moved house" });
    const moved = await move(unit, "installation", { siteId: second.id });
    expect([moved.status, moved.body.siteId]).toEqual([201, second.id]);
  });

  test("of a unit that is not installed is refused, and so is one of two at once", async () => {
    const unit = await stock();
    const early = await move(unit, "removal", { reason: "x" });
    expect([early.status, early.body.state]).toEqual([409, "received"]);
    await install(service, unit, await addSite(service));
    const replies = await Promise.all([
      move(unit, "removal", { reason: "first" }),
      move(unit, "removal", { reason: "second" }),
    ]);
    expect(replies.map(({ status }) => status).sort()).toEqual([201, 409]);
    expect(kindsOf(await read(unit))).toEqual(["received", "installed", "removed"]);
  });

  test("is not recorded before the installation that it ends", async () => {
    const unit = await stock();
    await install(service, unit, await addSite(service), { at: "2026-03-02T10:30:00Z" });
    const early = await move(unit, "removal", { reason: "x", at: "2026-03-02T10:29:59Z" });
    expect([early.status, pointersOf(early)]).toEqual([422, ["/body/at"]]);
    const later = await move(unit, "removal", { reason: "x", at: "2026-03-02T10:30:00Z" });
    expect(later.status).toBe(201);
  });

  test("on a job at another site is refused by its pointer", async () => {
    const { jobId } = await addJobRows(service, { stages: [] });
    const unit = await stock();
    await install(service, unit, await addSite(service));
    const reply = await move(unit, "removal", { jobId, reason: "x" });
    expect([reply.status, pointersOf(reply)]).toEqual([422, ["/body/jobId"]]);
  });
});
