// A claim from its unit's page to the swap that settled it: by form, with its evidence, on the
// ledger of its job.
import { createHash } from "node:crypto";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { whenMade } from "../support/evidence-exports.ts";
import { hiddenFields, pageForms, words } from "../support/page-forms.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { ledgerOf, moveUnit } from "../support/stock.ts";

const PDF = Buffer.from("%PDF-1.7\n1 0 obj\n<<>>\nendobj\ntrailer\n<<>>\n%%EOF\n");
let now = new Date("2026-11-25T17:00:00Z");
let service: TestService;
let job: PracticeJob;
let unitId: string;
let claim: string;
const { post, page, as } = pageForms(() => ({ service }) as never);

beforeAll(async () => {
  service = await startService({ now: () => now });
  job = await addPracticeJob(service);
  [unitId] = job.packIds as [string];
});
afterAll(() => service.stop());

const step = async (fields: object) => {
  const { version } = hiddenFields(await page(claim), "step-head");
  return post(`${claim}/step`, { version, ...fields });
};
const entries = async () => {
  const kept = (await ledgerOf(service, job.jobId)).filter(({ kind }) => /^warranty/.test(kind));
  return kept.map(({ kind, text }) => [kind, JSON.parse(text).body]);
};

describe("a claim", () => {
  test("is opened from its unit, for the job that installed it", async () => {
    expect(await page(`/units/${unitId}/warranty`)).toContain(`claims/new?unitId=${unitId}`);
    const form = await page(`/warranty/claims/new?unitId=${unitId}`);
    expect(form).toMatch(new RegExp(`<option value="${job.jobId}" selected>`));
    const empty = await post("/warranty/claims", { unitId, jobId: job.jobId, fault: " " });
    expect([empty.status, empty.text.includes('aria-invalid="true"')]).toEqual([422, true]);
    const opened = await post("/warranty/claims", { unitId, jobId: job.jobId, fault: "Cell 7" });
    expect(opened.status).toBe(303);
    claim = opened.headers.location as string;
    expect(words(await page(claim))).toMatch(/draft .*Cell 7.*Nothing is attached yet/);
    expect((await as("installer").get(claim)).status).toBe(403);
    expect(await page(claim, "auditor")).not.toContain("/step");
  });

  test("takes the unit's bag and a document, and gives back what was a slip", async () => {
    expect((await post(`${claim}/bag`, {})).status).toBe(303);
    const sha256 = createHash("sha256").update(PDF).digest("hex");
    const path = `/api/v1/jobs/${job.jobId}/documents/${sha256}?name=Photo%20report.pdf`;
    await as("office").put(path).set("content-type", "application/pdf").send(PDF);
    const [, documentId = ""] = /<option value="([^"]+)">[^<]*Photo report/.exec(
      await page(claim),
    ) as string[];
    expect((await post(`${claim}/document`, { documentId })).status).toBe(303);
    expect((await post(`${claim}/document`, { documentId })).status).toBe(303);
    const api = `/api/v1${claim}/evidence`;
    const { items } = (await as("office").get(api)).body;
    expect(items.map(({ kind }: { kind: string }) => kind)).toEqual(["bag", "document"]);
    const bag = await whenMade(service, items[0].exportId);
    expect([bag.state, bag.problem]).toEqual(["ready", null]);
    const shown = await page(claim);
    expect(shown).toContain(`/api/v1/evidence-exports/${bag.id}/bag`);
    expect(shown).toContain(bag.sha256);
    const stranger = service.as((await service.addFirm("birch")).people.office);
    expect((await stranger.delete(`${api}/${items[1].id}`)).status).toBe(404);
    await post(`${claim}/removal`, { evidenceId: items[1].id });
    expect((await as("office").get(api)).body.items).toHaveLength(1);
    expect((await as("office").delete(`${api}/${items[1].id}`)).status).toBe(404);
    const strange = { exportId: "01981f7e-5a3c-7000-8000-000000000001" };
    expect((await as("office").post(api).send(strange)).status).toBe(422);
  });

  test("goes its steps by form, and an old page's step is refused", async () => {
    const { version } = hiddenFields(await page(claim), "step-head");
    expect((await step({ state: "sent", makerReference: "FS-4711" })).status).toBe(303);
    const stale = await post(`${claim}/step`, { version, state: "accepted" });
    expect([stale.status, words(stale.text).includes("changed since you read it")]).toEqual([
      ...[422, true],
    ]);
    expect((await step({ state: "accepted", note: "A new pack" })).status).toBe(303);
    expect(words(await page(claim))).toMatch(/accepted .*FS-4711 .*A new pack/);
    expect(words(await page("/warranty/claims?state=accepted"))).toContain("Cell 7");
  });

  test("is settled by the swap that answered it, which both units tell", async () => {
    const early = await step({ state: "settled", replacementUnitId: job.packIds[1] });
    expect(early.text).toContain("did not come in a swap");
    const installer = as("installer");
    await installer.post(`/api/v1/jobs/${job.jobId}/answers`).send({ answers: job.answers() });
    expect((await installer.post(`/api/v1/jobs/${job.jobId}/close-out`)).status).toBe(201);
    const { serial } = (await as("office").get(`/api/v1/units/${unitId}`)).body;
    const fresh = { newSerial: `${serial.slice(0, -1)}9`, reason: "Cell 7" };
    now = new Date("2026-11-25T17:30:00Z");
    const swap = await moveUnit(service, { id: unitId }, "swap", fresh);
    expect(swap.status, swap.text).toBe(201);
    const newId = swap.body.new.id;
    expect((await step({ state: "settled", replacementUnitId: newId })).status).toBe(303);
    expect(words(await page(claim))).toMatch(/settled .*→.*✓ answered the claim/);
    expect(words(await page(`/units/${unitId}/warranty`))).toContain("answered the claim:");
    expect(words(await page(`/units/${newId}/warranty`))).toContain("Came in answer to a claim");
    expect((await post(`${claim}/bag`, {})).status).toBe(409);
    expect((await entries()).map(([kind]) => kind)).toEqual([
      ...["warranty.claim-opened", "warranty.evidence-attached", "warranty.evidence-attached"],
      ...["warranty.evidence-removed", "warranty.claim-sent", "warranty.claim-accepted"],
      "warranty.claim-settled",
    ]);
    expect((await entries()).at(-1)?.[1]).toMatchObject({ unitId, replacementUnitId: newId });
  });
});
