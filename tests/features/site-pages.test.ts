import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { fieldsOf, nextOf, registryDesk } from "../support/registry-desk.ts";
import { addModel, addSite, SITE } from "../support/stock.ts";

const NOW = new Date("2026-11-25T12:00:00Z");
let service: TestService;
let desk: Awaited<ReturnType<typeof registryDesk>>;
beforeAll(async () => {
  service = await startService({
    now: () => NOW,
    environment: { MAP_TILE_URL: "https://tiles.example/{z}/{x}/{y}.png" },
  });
  desk = await registryDesk(service);
});
afterAll(() => service.stop());

describe("a site's page", () => {
  test("shows units, warranty, supply, plan, map, open work and all that happened", async () => {
    await desk
      .as("installer")
      .post(`/api/v1/jobs/${desk.jobId}/snags`)
      .send({ title: "Lid scuffed" });
    await desk
      .as()
      .patch(`/api/v1/sites/${desk.site.id}`)
      .set("if-match", '"1"')
      .send({ name: "Mill barn" });
    const reply = await desk.page(`/sites/${desk.site.id}`);
    for (const text of [
      ...[desk.unit.serial, "10 years by its model", "TN-C-S", "Lid scuffed", "nothing due"],
      ...["Snag raised by installer person: Lid scuffed", "office person changed: Name"],
      ...["installed", "opened: Practice job"],
    ]) {
      expect(reply.text).toContain(text);
    }
    expect(reply.text).toMatch(/<svg[^>]*aria-label="S-2026-\d+ and no other site near it"/);
    expect(reply.text).toContain('<image href="https://tiles.example/16/');
    expect(reply.headers["content-security-policy"]).toContain(
      "img-src 'self' data: https://tiles.example",
    );
  });

  test("keeps to the part of the time line that was asked for", async () => {
    const snags = await desk.page(`/sites/${desk.site.id}?part=snags`);
    expect(snags.text).toContain("Snag raised by");
    expect(snags.text).not.toContain("changed: Name");
    expect((await desk.page(`/sites/${desk.site.id}?part=mails`)).text).toContain(
      "Nothing has happened yet.",
    );
    expect((await desk.page(`/sites/${desk.site.id}?part=secrets`)).status).toBe(422);
  });

  test("tells of nonconformances and of inspections that come round", async () => {
    const { id: siteId } = desk.site;
    await inFirm(service.db, service.firm.firmId, async (tx) => {
      const row = { firmId: tx.firmId, siteId, kind: "site", title: "Cover missing" };
      await tx.nonconformance.create({
        data: { ...row, id: crypto.randomUUID(), reference: "N-2026-0901", openedAt: NOW },
      });
      const job = await tx.job.findFirstOrThrow({
        where: { firmId: tx.firmId, id: desk.jobId },
        include: { planVersion: true },
      });
      const recurringId = crypto.randomUUID();
      await tx.recurringInspection.create({
        data: {
          ...{ firmId: tx.firmId, id: recurringId, siteId, planId: job.planVersion.planId },
          ...{ title: "Yearly look-over", everyMonths: 12, firstDueOn: NOW, nextDueOn: NOW },
          createdById: service.firm.people.office.id,
        },
      });
      await tx.recurringInspectionJob.create({
        data: { firmId: tx.firmId, recurringId, number: 0, dueOn: NOW, jobId: desk.jobId },
      });
    });
    const { text } = await desk.page(`/sites/${siteId}?part=nonconformances`);
    expect(text).toContain("Nonconformance N-2026-0901 opened: Cover missing");
    const turns = await desk.page(`/sites/${siteId}?part=inspections`);
    expect(turns.text).toMatch(/Inspection due 2026-11-25 opened as \S+: Yearly look-over/);
  });

  test("pages through a long time line in order, each entry once", async () => {
    const long = await addSite(service);
    for (let version = 1; version <= 35; version += 1) {
      const edit = desk.as().patch(`/api/v1/sites/${long.id}`).set("if-match", `"${version}"`);
      await edit.send({ name: `Name ${version}` });
    }
    let [path, entries]: [string | undefined, number] = [`/sites/${long.id}`, 0];
    let pages = 0;
    while (path) {
      const { text }: { text: string } = await desk.page(path);
      entries += text.match(/office person changed: Name/g)?.length ?? 0;
      pages += 1;
      path = nextOf(text);
    }
    expect([entries, pages]).toEqual([35, 2]);
  });

  test("is added and edited by form, with the problem beside its field", async () => {
    const fields = { ...SITE, customerId: desk.customerId, latitude: "52,19", longitude: "-1.71" };
    const wrong = await desk.post("/sites", fields as unknown as Record<string, string>);
    expect(wrong.status).toBe(422);
    expect(wrong.text).toContain('id="latitude-problem"');
    expect(wrong.text).toContain('value="14 Larch Row"');
    const made = await desk.post("/sites", { ...fields, latitude: "52.19" } as unknown as Record<
      string,
      string
    >);
    const path = made.headers.location as string;
    const typed = fieldsOf((await desk.page(`${path}/edit`)).text);
    expect(typed).toMatchObject({
      customerId: desk.customerId,
      latitude: "52.19",
      supply: "TN-C-S",
      country: "GB",
    });
    const saved = await desk.post(path, { ...typed, supply: "TT" });
    expect((await desk.page(saved.headers.location as string)).text).toContain("Supply: TT");
  });
});

describe("units and instruments", () => {
  test("a unit's note is edited on its page, which tells its life", async () => {
    const { text } = await desk.page(`/units/${desk.unit.id}`);
    const saved = await desk.post(
      `/units/${desk.unit.id}`,
      { ...fieldsOf(text), note: "Scuffed" },
      "installer",
    );
    expect(saved.headers.location).toMatch(/saved=/);
    const after = await desk.page(saved.headers.location as string, "installer");
    expect(after.text).toContain("Note: Scuffed");
    expect(after.text).toContain(desk.site.reference);
    expect((await desk.page(`/units/${desk.unit.id}`, "auditor")).text).not.toContain("<textarea");
  });

  test("a unit is received by form; a wrong serial is pointed at", async () => {
    const model = await addModel(service);
    const wrong = await desk.post("/units", { modelId: model.id, serial: "XX" });
    expect([wrong.status, wrong.text.includes('id="serial-problem"')]).toEqual([422, true]);
    const made = await desk.post("/units", { modelId: model.id, serial: "FS9001" });
    expect((await desk.page(made.headers.location as string)).text).toContain("in stock");
  });

  test("an instrument is added, edited, calibrated, retired and brought back", async () => {
    const fields = {
      ...{ reference: "IT-07", name: "Insulation tester", instrumentClass: "insulation-tester" },
      ...{ serial: "4471", intervalMonths: "12", percentOfReading: "0.5", digits: "3" },
    };
    const wrong = await desk.post("/instruments", fields);
    expect([wrong.status, wrong.text.includes("needs resolution")]).toEqual([422, true]);
    const made = await desk.post("/instruments", { ...fields, step: "0.1", stepUnit: "MΩ" });
    const path = made.headers.location as string;
    expect((await desk.page(path)).text).toContain("It has never been calibrated.");
    const calibration = { calibratedOn: "2026-11-01", passed: "true", certificate: "CAL-26-1187" };
    const late = await desk.post(`${path}/calibrations`, {
      ...calibration,
      calibratedOn: "2026-12-01",
    });
    expect([late.status, late.text.includes("lies in the future")]).toEqual([422, true]);
    await desk.post(`${path}/calibrations`, calibration);
    const fit = await desk.page(path);
    expect(fit.text).toContain("Readings taken with it now count.");
    const typed = fieldsOf((await desk.page(`${path}/edit`)).text);
    expect(typed).toMatchObject({ percentOfReading: "0.5", step: "0.1", stepUnit: "MΩ" });
    const saved = await desk.post(path, { ...typed, name: "Insulation tester, van 2" });
    expect(saved.headers.location).toMatch(/saved=/);
    await desk.post(`${path}/retire`, { version: "2", retired: "true" });
    expect((await desk.page("/instruments")).text).toContain("There is no instrument yet.");
    expect((await desk.page("/instruments?retired=true&sort=dueOn")).text).toContain("IT-07");
    await desk.post(`${path}/retire`, { version: "3", retired: "false" });
    expect((await desk.page("/instruments?sort=-dueOn&text=VAN")).text).toContain("IT-07");
  });
});
