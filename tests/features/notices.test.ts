import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { addNotice, isRecorded, recordDueList } from "../../src/features/notices/store.ts";
import { startService, type TestService } from "../support/app.ts";
import { nextOf, pointers } from "../support/reading.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const inOwnFirm = <T>(work: Parameters<typeof inFirm<T>>[2]) =>
  inFirm(service.db, service.firm.firmId, work);
const record = (day: string) => ({ day, siteCount: 1, unitCount: 2, entries: [{ id: day }] });

test("a day of the due list is recorded once, also when two transactions meet", async () => {
  const twice = [1, 2].map(() => inOwnFirm((tx) => recordDueList(tx, record("2026-11-24"))));
  expect((await Promise.all(twice)).sort()).toEqual([false, true]);
  expect(await inOwnFirm((tx) => isRecorded(tx, "2026-11-24"))).toBe(true);
  expect(await inOwnFirm((tx) => isRecorded(tx, "2026-11-23"))).toBe(false);
});

test("a recorded day can neither be changed nor removed by the application", async () => {
  for (const work of ["updateMany", "deleteMany"] as const) {
    const changed = inOwnFirm((tx) =>
      work === "updateMany"
        ? tx.dueListRecord.updateMany({ data: { unitCount: 0 } })
        : tx.dueListRecord.deleteMany({}),
    );
    await expect(changed).rejects.toThrow(/permission denied/);
  }
});

test("recorded days are listed with their counts and read with their sites", async () => {
  await inOwnFirm((tx) => recordDueList(tx, record("2026-11-25")));
  const auditor = service.as(service.firm.people.auditor);
  const first = await auditor.get("/api/v1/firmware/due-list-records?limit=1");
  expect(first.body.items).toMatchObject([{ day: "2026-11-24", siteCount: 1, unitCount: 2 }]);
  const [second] = (await auditor.get(nextOf(first))).body.items;
  const path = `/api/v1/firmware/due-list-records/${second.id}`;
  expect((await auditor.get(path)).body.entries).toEqual([{ id: "2026-11-25" }]);
  const bad = await auditor.get("/api/v1/firmware/due-list-records?day=today");
  expect([bad.status, pointers(bad)]).toEqual([422, ["/query/day"]]);
  const installer = service.as(service.firm.people.installer);
  expect((await installer.get(path)).status).toBe(403);
  const theirs = service.as((await service.addFirm("birch")).people.auditor);
  expect((await theirs.get(path)).status).toBe(404);
  expect((await theirs.get("/api/v1/firmware/due-list-records")).body.items).toEqual([]);
});

test("one person has one notice of a kind a day, which the database holds to", async () => {
  const personId = service.firm.people.office.id;
  const { firmId } = service.firm;
  const mailId = await inOwnFirm(async (tx) => {
    const mail = { firmId, id: personId, recipient: "office@alder.example", subject: "S" };
    return (await tx.mail.create({ data: { ...mail, textBody: "T", messageId: "<1@a>" } })).id;
  });
  const notice = {
    ...{ kind: "firmware-due", day: "2026-11-25", personId, contentSha256: "0", mailId },
    ...{ subject: "Firmware due", body: "<One> site" },
  };
  await inOwnFirm((tx) => addNotice(tx, notice));
  await expect(inOwnFirm((tx) => addNotice(tx, notice))).rejects.toThrow();
  const office = service.as(service.firm.people.office);
  const listed = await office.get("/api/v1/notices?day=2026-11-25");
  expect(listed.body.items).toMatchObject([{ personId, mailId, mailState: "waiting" }]);
  expect((await office.get("/api/v1/notices?day=2026-11-26")).body.items).toEqual([]);
  expect((await service.as(service.firm.people.installer).get("/api/v1/notices")).status).toBe(403);
});

test("a notice is on the person's own page, new until it was looked at", async () => {
  const office = service.as(service.firm.people.office);
  const page = () => office.get("/notices").set("accept", "text/html");
  const menu = await office.get("/crews").set("accept", "text/html");
  expect(menu.text).toMatch(/href="\/notices"[^>]*>Notices <span class="tag warn">1</);
  const first = await page();
  expect(first.text).toContain("&lt;One&gt; site");
  expect(first.text).toContain('<span class="tag warn">new</span>');
  expect((await page()).text).not.toContain('<span class="tag warn">new</span>');
  const others = service.as(service.firm.people.manager);
  const theirs = await others.get("/notices").set("accept", "text/html");
  expect(theirs.text).toContain("You have had no notice.");
});
