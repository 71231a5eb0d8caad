// Strings that have broken other programs, in what a mail to a customer is made of: it leaves as
// one mail to one address with the headers that every mail has (CWE-93), and says what was given.
import { afterAll, beforeAll, expect, test } from "vitest";
import { soon, startVisitDesk, type VisitDesk } from "../support/visit-desk.ts";
import { isRefused, keptAs, SHARES, shareOf } from "./naughty-strings/list.ts";
import { decoded } from "./naughty-strings/page-text.ts";
import { line } from "./naughty-strings/records.ts";

const TIME_LIMIT = 60_000 + Math.ceil(500 / SHARES) * 1000;
let desk: VisitDesk;
beforeAll(async () => {
  desk = await startVisitDesk();
});
afterAll(() => desk.stop());

const USUAL = new Set([
  ...["from", "to", "reply-to", "subject", "message-id", "date", "mime-version"],
  ...["content-type", "content-transfer-encoding", "auto-submitted"],
]);
const TAGS = /<(?:script|img|svg|iframe|style|base|math|plaintext|a [^>]*javascript)/i;

async function edit(path: string, body: object): Promise<void> {
  const owner = desk.service.as(desk.service.firm.people.owner);
  const { version } = (await owner.get(path)).body;
  const reply = await owner.patch(path).set("if-match", `"${version}"`).send(body);
  expect(reply.status, reply.text).toBe(200);
}

/** The mail of a visit to a customer, with the text wherever a person could put one. */
async function mailWith(text: string) {
  await desk.clear();
  desk.server.received.length = 0;
  desk.server.recipients.length = 0;
  await edit("/api/v1/firm", { name: text });
  await edit("/api/v1/mail/settings", { senderName: text });
  const job = await desk.newJob();
  await edit(`/api/v1/customers/${job.customerId}`, { name: text });
  await edit(`/api/v1/sites/${job.siteId}`, { addressLine: text, locality: text });
  const visit = await desk.book(job.id);
  await desk.write(soon(6));
  await desk.send(soon(7));
  const [row] = await desk.mailsOf(visit);
  return row!;
}

test(
  "each string leaves as text, and as nothing else",
  async () => {
    let sent = 0;
    const fitting = shareOf(9).filter((text) => !isRefused(text, line(80)));
    // A mail takes many times what a record does.
    const strings = fitting.filter((_, at) => SHARES === 1 || at % 3 === 0);
    for (const text of strings) {
      const kept = keptAs(text, line(80));
      const { subject, textBody, htmlBody } = await mailWith(text);
      const what = JSON.stringify(text);
      const [mail, ...others] = desk.server.received;
      expect([others, desk.server.recipients], what).toEqual([[], ["ida@rook.example"]]);
      expect(
        [...mail!.headers.keys()].filter((name) => !USUAL.has(name)),
        what,
      ).toEqual([]);
      expect(mail!.from?.value.map(({ name }) => name)).toEqual([kept]);
      expect(mail!.subject).toBe(subject);
      expect(textBody).toContain(kept);
      expect(mail!.text).toContain(kept);
      expect(decoded(htmlBody!)).toContain(kept);
      expect(htmlBody).not.toMatch(TAGS);
      sent += 1;
    }
    expect(sent).toBe(strings.length);
  },
  TIME_LIMIT,
);
