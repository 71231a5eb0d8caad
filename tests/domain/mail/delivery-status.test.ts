// Reports in the form of RFC 3464 and RFC 6522 (from memory); how they fall into parts is compared
// with mailparser, a general-purpose reader.
import fc from "fast-check";
import { simpleParser } from "mailparser";
import { describe, expect, test } from "vitest";
import { parseDeliveryStatus } from "../../../src/domain/mail/delivery-status.ts";
import { messageParts } from "../../../src/domain/mail/message-parts.ts";

const ID = "<01935f3a-7b1c-7c7e-9d3a-2f1b5c6d7e8f@holdpoint.example>";

interface Parts {
  perMessage?: string[];
  perRecipient?: string[][];
  returned?: string[];
  boundary?: string;
}

const RECIPIENT = [
  "Original-Recipient: rfc822;gone@rook.example",
  "Final-Recipient: rfc822; gone@rook.example",
  "Action: failed",
  "Status: 5.1.1 (bad destination mailbox)",
  "Diagnostic-Code: smtp; 550 5.1.1 <gone@rook.example>: no such",
  " mailbox here",
];

function reportOf(parts: Parts = {}): string {
  const { boundary = "RAA14128.773615765/mail.rook.example" } = parts;
  const perMessage = parts.perMessage ?? ["Reporting-MTA: dns; mail.rook.example"];
  const groups = [perMessage, ...(parts.perRecipient ?? [RECIPIENT])];
  return [
    "From: Mail Delivery Subsystem <MAILER-DAEMON@mail.rook.example>",
    "Subject: Returned mail: see transcript",
    "MIME-Version: 1.0",
    "Content-Type: multipart/report; report-type=delivery-status;",
    `\tboundary="${boundary}"`,
    "",
    "This is a preamble that nobody reads.",
    `--${boundary}`,
    "Content-Type: text/plain; charset=utf-8",
    "",
    "The mail did not arrive.",
    "",
    `--${boundary}`,
    "content-type: Message/Delivery-Status",
    "",
    groups.map((group) => group.join("\r\n")).join("\r\n\r\n"),
    "",
    `--${boundary}`,
    ...(parts.returned ?? [
      "Content-Type: message/rfc822",
      "",
      "From: post@holdpoint.example",
      `Message-ID:\r\n ${ID}`,
      "",
      "Message-ID: <not-this-one@rook.example>",
    ]),
    `--${boundary}--`,
    "",
  ].join("\r\n");
}

describe("a delivery report", () => {
  test("names the recipient, what happened, and the mail it is about", () => {
    expect(parseDeliveryStatus(reportOf())).toEqual({
      ok: true,
      report: {
        messageId: ID,
        recipients: [
          {
            recipient: "gone@rook.example",
            action: "failed",
            status: "5.1.1",
            diagnostic: "550 5.1.1 <gone@rook.example>: no such mailbox here",
          },
        ],
      },
    });
  });

  test("may come with bare line feeds, as files often do", () => {
    const read = parseDeliveryStatus(reportOf().replaceAll("\r\n", "\n"));
    expect(read).toEqual(parseDeliveryStatus(reportOf()));
  });

  test("may carry the envelope's id, encoded as RFC 3461 4 says", () => {
    const perMessage = ["Original-Envelope-Id: 0193+2Babc", "Reporting-MTA: dns; mail.example"];
    const read = parseDeliveryStatus(reportOf({ perMessage }));
    expect(read).toMatchObject({ ok: true, report: { envelopeId: "0193+abc" } });
  });

  test.each([
    [
      "text/rfc822-headers (RFC 6522 4)",
      ["Content-Type: text/rfc822-headers", "", `Message-Id: ${ID}`, ""],
    ],
    [
      "message/global (RFC 6532 3.7)",
      ["Content-Type: message/global", "", `Message-Id: ${ID}`, ""],
    ],
  ])("may return the mail as %s", (_type, returned) => {
    expect(parseDeliveryStatus(reportOf({ returned }))).toMatchObject({
      ok: true,
      report: { messageId: ID },
    });
  });

  test.each(["failed", "delayed", "delivered", "relayed", "expanded"])(
    "knows the action %s (RFC 3464 2.3.3), in any case",
    (action) => {
      const group = ["Final-Recipient: rfc822;a@b.example", `ACTION: ${action.toUpperCase()}`];
      const read = parseDeliveryStatus(reportOf({ perRecipient: [[...group, "Status: 2.0.0"]] }));
      expect(read).toMatchObject({
        ok: true,
        report: { recipients: [{ recipient: "a@b.example", action, status: "2.0.0" }] },
      });
    },
  );

  test("keeps its recipients apart, and passes over one it cannot read", () => {
    const other = ["Final-Recipient: rfc822; b@b.example", "Action: delayed", "Status: 4.4.1"];
    const odd = ["Final-Recipient: rfc822; c@b.example", "Action: eaten", "Status: 5.0.0"];
    const read = parseDeliveryStatus(reportOf({ perRecipient: [RECIPIENT, odd, other] }));
    const recipients = read.ok ? read.report.recipients.map(({ recipient }) => recipient) : [];
    expect(recipients).toEqual(["gone@rook.example", "b@b.example"]);
  });

  test.each([
    ["an ordinary mail", "From: a@b.example\r\nSubject: Hello\r\n\r\nText"],
    ["nothing", ""],
    ["a report without recipients", reportOf({ perRecipient: [] })],
    ["a boundary that never comes", reportOf().replaceAll("--RAA", "--RAB")],
  ])("is not %s", (_what, raw) => {
    const read = parseDeliveryStatus(raw);
    expect(read.ok).toBe(false);
    expect(read.ok ? "" : read.problem).toMatch(/delivery report/);
  });

  test("is refused or read, and never thrown over, whatever it is", () => {
    const line = fc.constantFrom(
      ...reportOf().split("\r\n"),
      "--x",
      "Content-Type: multipart/mixed; boundary=x",
    );
    fc.assert(
      fc.property(fc.array(fc.oneof(line, fc.string()), { maxLength: 60 }), (lines) => {
        expect(typeof parseDeliveryStatus(lines.join("\r\n")).ok).toBe("boolean");
      }),
    );
  });
});

describe("the parts of a message", () => {
  test("are those that mailparser finds", async () => {
    const raw = reportOf();
    const parsed = await simpleParser(raw, { keepDeliveryStatus: true });
    const ours = messageParts(raw);
    const theirs = parsed.attachments.map(({ contentType, content }) => [
      contentType,
      content.toString("utf8").trim(),
    ]);
    const same = ours
      .filter(({ type }) => type.startsWith("message/"))
      .map(({ type, body }) => [type, body.trim()]);
    expect(theirs.length).toBeGreaterThan(0);
    for (const part of theirs) expect(same).toContainEqual(part);
    expect(parsed.text).toContain("The mail did not arrive.");
  });

  test("are found in parts of parts (RFC 2046 5.1.3), and no deeper than four", () => {
    const head = (depth: number) => `Content-Type: multipart/mixed; boundary=b${depth}`;
    const wrap = (inner: string, depth: number) =>
      [head(depth), "", `--b${depth}`, inner, `--b${depth}--`].join("\r\n");
    let raw = "Content-Type: text/plain\r\n\r\nInside";
    const found = [1, 2, 3, 4, 5, 6].map((depth) => {
      raw = wrap(raw, depth);
      return messageParts(raw).some(({ type, body }) => type === "text/plain" && body === "Inside");
    });
    expect(found).toEqual([true, true, true, true, false, false]);
  });
});
