import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestFirm, type TestService } from "../support/app.ts";
import { mergeDesk } from "../support/merge-desk.ts";
import { install, ledgerOf, type Made, receive, SITE } from "../support/stock.ts";

let service: TestService;
let other: TestFirm;
let desk: Awaited<ReturnType<typeof mergeDesk>>;
beforeAll(async () => {
  service = await startService();
  other = await service.addFirm("birch");
  desk = await mergeDesk(service);
});
afterAll(() => service.stop());

const surveysAt = (siteId: string) =>
  inFirm(service.db, service.firm.firmId, (tx) => tx.survey.count({ where: { siteId } }));

describe("a site that is the same place as another", () => {
  test("becomes part of it: all that points there moves, ledgers stay", async () => {
    const { from, into, bank, unit, job } = await desk.twoSites();
    const before = await ledgerOf(service, job.id);
    const reply = await desk.merge("sites", from.id, into.id);
    expect(reply.status, JSON.stringify(reply.body)).toBe(201);
    const moved = Object.fromEntries(
      reply.body.moved.map(({ what, count }: { what: string; count: number }) => [what, count]),
    );
    expect(moved).toEqual({ bank: 1, job: 1, survey: 1, unit: 1, unit_event: 1 });
    expect((await desk.read(`/api/v1/units/${unit.id}`)).siteId).toBe(into.id);
    expect((await desk.read(`/api/v1/banks/${bank.id}`)).siteId).toBe(into.id);
    expect((await desk.read(`/api/v1/jobs/${job.id}`)).site.id).toBe(into.id);
    const life = await desk.read(`/api/v1/units/${unit.id}/life`);
    expect(life.events.at(-1)).toMatchObject({ kind: "installed", siteId: into.id });
    expect([await surveysAt(from.id), await surveysAt(into.id)]).toEqual([0, 1]);
    const old = await desk.read(`/api/v1/sites/${from.id}`);
    expect([old.mergedIntoId, old.archivedAt === null, old.unitCount]).toEqual([into.id, false, 0]);
    const after = await ledgerOf(service, job.id);
    expect(after.slice(0, before.length)).toEqual(before);
    const body = { mergeId: reply.body.id, fromId: from.id, intoId: into.id };
    expect(
      after.slice(before.length).map(({ kind, text }) => [kind, JSON.parse(text).body]),
    ).toEqual([["site.merged", body]]);
  });

  test("is found by its old reference, which leads to the other one", async () => {
    const { from, into } = await desk.twoSites();
    await desk.merge("sites", from.id, into.id);
    const { items } = await desk.read(`/api/v1/search?q=${from.reference}`);
    expect(items[0]).toMatchObject({ id: into.id, name: into.reference, foundAs: from.reference });
  });

  test("is apart again when the merge is undone, every row where it was", async () => {
    const { from, into, bank, unit, job } = await desk.twoSites();
    const stays = await receive(service, desk.modelId);
    await install(service, stays, into);
    const { body } = await desk.merge("sites", from.id, into.id);
    const reply = await desk.undo("sites", body);
    expect(reply.status, JSON.stringify(reply.body)).toBe(200);
    expect((await desk.read(`/api/v1/units/${unit.id}`)).siteId).toBe(from.id);
    expect((await desk.read(`/api/v1/units/${stays.id}`)).siteId).toBe(into.id);
    expect((await desk.read(`/api/v1/banks/${bank.id}`)).siteId).toBe(from.id);
    expect((await desk.read(`/api/v1/jobs/${job.id}`)).site.id).toBe(from.id);
    expect([await surveysAt(from.id), await surveysAt(into.id)]).toEqual([1, 0]);
    const old = await desk.read(`/api/v1/sites/${from.id}`);
    expect([old.mergedIntoId, old.archivedAt]).toEqual([null, null]);
    expect((await ledgerOf(service, job.id)).map(({ kind }) => kind).slice(-2)).toEqual([
      "site.merged",
      "site.merge-undone",
    ]);
    expect((await desk.undo("sites", body)).body.detail).toContain("has undone this merge already");
  });

  test("keeps its own survey where the other has one, which stays the current one", async () => {
    const { from, into } = await desk.twoSites();
    await desk.addSurveyRow(into.id);
    expect((await desk.merge("sites", from.id, into.id)).status).toBe(201);
    expect([await surveysAt(from.id), await surveysAt(into.id)]).toEqual([1, 1]);
  });

  test("takes along what was merged into it before", async () => {
    const { from, into, customerId } = await desk.twoSites();
    const last: Made = await desk.post("/api/v1/sites", { ...SITE, customerId });
    await desk.merge("sites", from.id, into.id);
    await desk.merge("sites", into.id, last.id);
    expect((await desk.read(`/api/v1/sites/${from.id}`)).mergedIntoId).toBe(last.id);
  });
});

describe("customers", () => {
  test("are suggested with the reason, and merged with what the other lacked", async () => {
    const one = { name: "Quillon Ferrars", phone: "+44 20 7946 0999" };
    const from = await desk.post("/api/v1/customers", { ...one, email: "q@ferrars.example" });
    const into = await desk.post("/api/v1/customers", { name: "Quilon Ferrars", email: null });
    const site = await desk.post("/api/v1/sites", { ...SITE, customerId: from.id });
    const { items } = await desk.read(`/api/v1/customers/${from.id}/duplicates`);
    expect(items).toEqual([expect.objectContaining({ id: into.id, reasons: ["alike-name"] })]);
    const reply = await desk.merge("customers", from.id, into.id);
    expect([reply.status, reply.body.filled.sort()]).toEqual([201, ["email", "phone"]]);
    expect((await desk.read(`/api/v1/sites/${site.id}`)).customerId).toBe(into.id);
    expect(await desk.read(`/api/v1/customers/${into.id}`)).toMatchObject({ phone: one.phone });
    expect((await desk.undo("customers", reply.body)).status).toBe(200);
    expect((await desk.read(`/api/v1/sites/${site.id}`)).customerId).toBe(from.id);
    expect(await desk.read(`/api/v1/customers/${into.id}`)).toMatchObject({
      phone: null,
      email: null,
    });
  });

  test("of one phone number or e-mail address are suggested whatever their names", async () => {
    const phone = "+44 20 7946 0777";
    const one = await desk.post("/api/v1/customers", {
      name: "Ida Rook",
      phone,
      email: "ida@rook.example",
    });
    const byPhone = await desk.post("/api/v1/customers", {
      name: "Wren Olsen",
      phone: "020 7946 0777",
    });
    const byMail = await desk.post("/api/v1/customers", {
      name: "Bo Vance",
      email: "IDA@rook.example",
    });
    const { items } = await desk.read(`/api/v1/customers/${one.id}/duplicates`);
    expect(
      new Map(items.map((item: { id: string; reasons: string[] }) => [item.id, item.reasons])),
    ).toEqual(
      new Map([
        [byPhone.id, ["same-phone"]],
        [byMail.id, ["same-email"]],
      ]),
    );
  });

  test("and sites of another firm are never suggested, nor found", async () => {
    const { from } = await desk.twoSites();
    const theirs = service.as(other.people.office);
    expect((await theirs.get(`/api/v1/sites/${from.id}/duplicates`)).status).toBe(404);
    const { items } = await desk.read(`/api/v1/sites/${from.id}/duplicates`);
    expect(items.length).toBeGreaterThan(0);
  });
});
