// What people type cannot add a header, a recipient or a command of its own to a mail (OWASP ASVS
// 5.0.0, V1.3.11; the ways are those of CWE-93 and of RFC 5321, section 4.1.1, from memory).
import { uuidv7 } from "uuidv7";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import type { WaitingMail } from "../../src/features/mail/claim-store.ts";
import { openPost } from "../../src/features/mail/post.ts";
import { startService, type TestService } from "../support/app.ts";
import { type MailServer, mailConfig, startMailServer } from "../support/smtp.ts";

let service: TestService;
let server: MailServer;
beforeAll(async () => {
  service = await startService();
  server = await startMailServer();
});
afterAll(async () => {
  await server.stop();
  await service.stop();
});
afterEach(() => {
  server.received.length = 0;
  server.recipients.length = 0;
});

const OTHER = "thief@evil.example";
const INJECTIONS = [
  ["a carriage return and a line feed", `\r\nBcc: ${OTHER}`],
  ["a line feed alone", `\nBcc: ${OTHER}`],
  ["a carriage return alone", `\rBcc: ${OTHER}`],
  ["the end of the header", `\r\n\r\nSend money to ${OTHER}`],
  ["the end of the mail and the next command", `\r\n.\r\nRCPT TO:<${OTHER}>\r\n`],
  ["Unicode's line separator", `\u2028Bcc: ${OTHER}`],
  ["a second address", `, ${OTHER}`],
  ["a second address in brackets", `> <${OTHER}>`],
] as const;

describe.each(INJECTIONS)("%s", (_what, injected) => {
  test("is refused in an address that a mail goes to, comes from or is answered at", async () => {
    const { office, owner } = service.firm.people;
    const email = `kim@site.example${injected}`;
    const replies = [
      await service.as(office).post("/api/v1/customers").send({ name: "Kim", email }),
      await service.as(office).patch("/api/v1/mail/settings").send({ replyTo: email }),
      await service
        .as(owner)
        .post("/api/v1/people")
        .send({ name: "Kim", email, roles: ["office"], password: "seven quiet lanterns drift" }),
    ];
    expect(replies.map(({ status }) => status)).toEqual([422, 422, 422]);
  });

  const PLACES = ["recipient", "subject", "senderName", "replyTo", "textBody", "attachment"];
  test.each(PLACES)("adds nothing in the %s of a row that has it", async (place) => {
    const post = openPost(mailConfig({ SMTP_URL: server.url }));
    try {
      if (post.kind !== "smtp") throw new Error("no server");
      const { kind } = await post.send(mailWith(place, injected));
      // Refused as a whole, or on its way as what it says: one mail to one address.
      expect(kind === "sent").toBe(server.received.length === 1);
    } finally {
      post.close();
    }
    expect(server.recipients).not.toContain(OTHER);
    expect(server.recipients.length).toBeLessThanOrEqual(1);
    if (place !== "recipient") expect(server.recipients).toEqual(["kim@site.example"]);
    for (const mail of server.received) {
      expect([...mail.headers.keys()].filter((name) => !USUAL.has(name))).toEqual([]);
      if (place !== "textBody") expect(mail.text?.trim()).toBe("The crew comes at eight.");
    }
  });
});

const USUAL = new Set([
  ...["from", "to", "reply-to", "subject", "message-id", "date", "mime-version"],
  ...["content-type", "content-transfer-encoding", "auto-submitted"],
]);

function mailWith(place: string, injected: string): WaitingMail {
  const id = uuidv7();
  const mail = {
    ...{ id, recipient: "kim@site.example", subject: "Your visit", htmlBody: null },
    ...{ textBody: "The crew comes at eight.", senderName: "Alder", attempts: 1 },
    ...{ replyTo: "office@alder.example", messageId: `<${id}@alder.example>`, customerId: null },
    createdAt: new Date("2026-11-20T09:00:00Z"),
  };
  const name = place === "attachment" ? `plan${injected}.pdf` : "plan.pdf";
  const attachments = [
    { name, contentType: "application/pdf", content: new Uint8Array(Buffer.from("%PDF-1.7")) },
  ];
  const changed = place === "attachment" ? {} : { [place]: Object(mail)[place] + injected };
  return { ...mail, attachments, ...changed };
}
