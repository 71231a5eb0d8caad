// The outbox's pages work without any script: forms posted, answers read.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { queueMail } from "../../src/features/mail/store.ts";
import type { Role } from "../../src/web/roles.ts";
import { startService, type TestService } from "../support/app.ts";
import { rowsIn, SMALL_PLAN } from "../support/work-rows.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const as = (role: Role) => service.as(service.firm.people[role]);
const get = async (path = "/outbox", role: Role = "office") =>
  as(role).get(path).set("accept", "text/html");
const post = async (path: string, form: Record<string, string> = {}, role: Role = "office") =>
  as(role).post(path).set("accept", "text/html").type("form").send(form);
const inOwnFirm = <T>(work: Parameters<typeof inFirm<T>>[2]) =>
  inFirm(service.db, service.firm.firmId, work);
const queue = (subject: string, data: object = {}) =>
  inOwnFirm(async (tx) => {
    const texts = { subject, textBody: "Line one\nLine <two>", htmlBody: "<p>Text</p>" };
    const mail = { recipient: "ida@rook.example", host: "holdpoint.example", ...texts };
    const { id } = await queueMail(tx, mail, new Date());
    await tx.mail.updateMany({ where: { id }, data });
    return id;
  });
const stateOf = (id: string) => inOwnFirm((tx) => tx.mail.findFirstOrThrow({ where: { id } }));

describe("the outbox's page", () => {
  test("empty: says what writes a mail, and that no server is set", async () => {
    const { text, status } = await get();
    expect(status).toBe(200);
    expect(text).toContain("There is no mail here.");
    expect(text).toContain("SMTP_URL");
  });

  test("shows each mail's state with its reason, newest first, and counts by state", async () => {
    await queue("Older", { state: "failed", attempts: 6, lastError: "451 try later" });
    await queue("Newer");
    const { text } = await get();
    expect(text.indexOf("Newer")).toBeLessThan(text.indexOf("Older"));
    expect(text).toContain("▲ Failed");
    expect(text).toContain("451 try later");
    expect(text).toContain("waits for you: no mail server is set");
    expect(text).toContain("6 attempts");
    expect(text).toMatch(/href="\/outbox\?state(=|&#x3D;)failed">Failed <span class="small">1</);
    const failed = (await get("/outbox?state=failed")).text;
    expect([failed.includes("Older"), failed.includes("Newer")]).toEqual([true, false]);
  });

  test("goes on to older mails past forty, and shows none twice", async () => {
    for (let count = 0; count < 41; count += 1)
      await queue(`Many ${count}.`, { state: "cancelled" });
    const first = (await get("/outbox?state=cancelled")).text;
    const [, next = ""] = /href="([^"]+)" rel="next"/.exec(first) ?? [];
    const second = (await get(next.replaceAll("&amp;", "&").replaceAll("&#x3D;", "="))).text;
    const subjects = [...`${first}${second}`.matchAll(/>(Many \d+\.)</g)].map(([, one]) => one);
    expect([subjects.length, new Set(subjects).size]).toEqual([41, 41]);
    expect(second).not.toContain('rel="next"');
  });

  test("is for owner, office and manager; a manager sees no buttons", async () => {
    for (const role of ["installer", "auditor"] as const) {
      expect((await get("/outbox", role)).status).toBe(403);
    }
    const { text } = await get("/outbox", "manager");
    expect(text).not.toContain('action="/outbox/');
    expect((await post("/outbox/bounces", { report: "x" }, "manager")).status).toBe(403);
  });
});

describe("a mail's page", () => {
  test("offers what its state allows and shows the text escaped", async () => {
    const id = await queue("To act on");
    const { text } = await get(`/outbox/${id}`);
    const offered = [...text.matchAll(/action="\/outbox\/[^/]+\/([a-z-]+)"/g)].map(
      ([, one]) => one,
    );
    // Without a mail server there is nothing to try.
    expect(offered).toEqual(["hold", "cancellation", "sent-by-hand"]);
    expect(text).toContain("Line &lt;two&gt;");
    expect(text).toContain(`href="/api/v1/mails/${id}/message"`);
    const held = await post(`/outbox/${id}/hold`);
    expect([held.status, held.headers.location]).toEqual([303, `/outbox/${id}`]);
    expect((await stateOf(id)).state).toBe("held");
  });

  test("tells what is in the way when the state has changed meanwhile", async () => {
    const id = await queue("Gone out", { state: "sent" });
    const refused = await post(`/outbox/${id}/hold`);
    expect(refused.status).toBe(409);
    expect(refused.text).toContain("The mail is sent; this takes one that is waiting.");
    expect((await post(`/outbox/${id}/burn`)).status).toBe(422);
    expect((await get("/outbox/01900000-0000-7000-8000-00000000dead")).status).toBe(404);
  });
});

describe("visits that are about to be told", () => {
  test("stand on the page until the customer knows", async () => {
    const rows = rowsIn(service);
    const { id: siteId, customerId } = await rows.site();
    const jobId = await rows.job(siteId, (await rows.planVersion(SMALL_PLAN)).id);
    const crewId = await rows.crew("North crew", [await rows.person("Bo Ash")]);
    const local = { day: "2031-05-15", from: "08:30", to: "12:00" };
    const booked = await as("office").post(`/api/v1/jobs/${jobId}/visits`).send({ crewId, local });
    expect((await get()).text).toContain("▲ no mail address");
    const setCustomer = (data: object) =>
      inOwnFirm((tx) => tx.customer.updateMany({ where: { id: customerId }, data }));
    await setCustomer({ email: "ida@rook.example" });
    const shown = (await get()).text;
    expect(shown).toContain("15 May 2031, 08:30");
    expect(shown).not.toContain("▲ no mail address");
    const listed = await as("office").get("/api/v1/visit-tellings");
    expect(listed.body.items).toMatchObject([{ visitId: booked.body.id, blockedBy: null }]);
    await setCustomer({ emailFailingAt: new Date(), emailFailingReason: "550 no such user" });
    const failing = (await get()).text;
    expect(failing).toContain("▲ the address fails");
    expect(failing).toContain("550 no such user");
    expect((await post(`/outbox/addresses/${customerId}/mended`)).status).toBe(303);
    expect((await get()).text).not.toContain("550 no such user");
    const known = await post(`/outbox/tellings/${booked.body.id}/known`);
    expect([known.status, known.headers.location]).toEqual([303, "/outbox"]);
    expect((await get()).text).not.toContain("About to be written");
    const path = `/api/v1/visit-tellings/${booked.body.id}`;
    expect((await as("office").delete(path)).status).toBe(404);
  });
});

describe("a delivery report pasted into the page", () => {
  test("leads to the mail it marked; what cannot be read is kept and told", async () => {
    const id = await queue("Came back", { state: "sent" });
    const { messageId } = await stateOf(id);
    const wrong = await post("/outbox/bounces", { report: "Hello <there>" });
    expect(wrong.status).toBe(422);
    expect(wrong.text).toContain("Hello &lt;there&gt;</textarea>");
    expect(wrong.text).toContain("The message is no delivery report");
    const report = [
      "Content-Type: multipart/report; boundary=b",
      ...["", "--b", "Content-Type: message/delivery-status", "", "Reporting-MTA: dns; m.example"],
      ...["", "Final-Recipient: rfc822; ida@rook.example", "Action: failed", "Status: 5.2.2", ""],
      ...["--b", "Content-Type: text/rfc822-headers", "", `Message-ID: ${messageId}`, "", "--b--"],
    ].join("\r\n");
    const taken = await post("/outbox/bounces", { report });
    expect([taken.status, taken.headers.location]).toEqual([303, `/outbox/${id}`]);
    expect((await get(`/outbox/${id}`)).text).toContain("▲ Came back");
    const strange = await post("/outbox/bounces", { report: report.replace(messageId, "<x@y>") });
    expect([strange.status, strange.text.includes("no mail of your firm")]).toEqual([422, true]);
  });
});

describe("the page of the mail settings", () => {
  const PATH = "/outbox/settings";
  const typedIn = (text: string, name: string) =>
    new RegExp(`name="${name}"[^>]* value="([^"]*)"`).exec(text)?.[1];
  const ticked = (text: string) =>
    [...text.matchAll(/name="([a-z]+)" value="true" checked/g)].map(([, name]) => name);

  test("saves what was typed, boxes that are not ticked too", async () => {
    const before = (await get(PATH)).text;
    expect(ticked(before)).toEqual(["confirmation", "change", "cancellation", "reminder"]);
    const form = {
      ...{ version: "1", senderName: "Alder Storage", replyTo: "", reminder: "true" },
      ...{ reminderHour: "16", holdBackMinutes: "10", quietFrom: "20:00", quietTo: "07:30" },
    };
    const saved = await post(PATH, form);
    expect([saved.status, saved.headers.location]).toEqual([303, `${PATH}?saved=1`]);
    const after = (await get(`${PATH}?saved=1`)).text;
    expect(after).toContain("✓ Saved.");
    expect(ticked(after)).toEqual(["reminder"]);
    expect(typedIn(after, "senderName")).toBe("Alder Storage");
    expect([typedIn(after, "quietFrom"), typedIn(after, "quietTo")]).toEqual(["20:00", "07:30"]);
    expect(after).toContain('<option value="16" selected>16:00</option>');
    const stale = await post(PATH, form);
    expect([stale.status, stale.text.includes("changed since you read it")]).toEqual([422, true]);
  });

  test.each([
    [{ holdBackMinutes: "500" }, "holdBackMinutes"],
    [{ replyTo: "nobody" }, "replyTo"],
    [{ quietFrom: "20:00", quietTo: "" }, "quietTo"],
    [{ quietFrom: "20:00", quietTo: "20:00" }, "quietTo"],
  ])("points at the field of %j and keeps what was typed", async (wrong, field) => {
    const form = { version: "2", senderName: "Kept", reminderHour: "9", holdBackMinutes: "5" };
    const reply = await post(PATH, { ...form, ...wrong });
    expect(reply.status).toBe(422);
    expect(reply.text).toContain(`id="${field}-problem"`);
    expect(typedIn(reply.text, "senderName")).toBe("Kept");
  });

  test("is for owner and office", async () => {
    expect((await get(PATH, "owner")).status).toBe(200);
    expect((await get(PATH, "manager")).status).toBe(403);
  });
});
