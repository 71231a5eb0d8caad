// Delivery reports handed over, by the interface and by the operator's command.
import { execFile } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { OUTBOX_NOW, type Outbox, startOutbox } from "../support/outbox.ts";
import { pointers } from "../support/reading.ts";

const CLI = fileURLToPath(new URL("../../src/cli.ts", import.meta.url));
let outbox: Outbox;
beforeAll(async () => {
  outbox = await startOutbox();
});
afterAll(() => outbox.service.stop());

describe("a delivery report", () => {
  const reportOn = (
    messageId: string,
    recipient: string,
    { action = "failed", status = "5.1.1", diagnostic = "550 5.1.1 no such user" } = {},
  ) =>
    [
      "From: MAILER-DAEMON@mail.example",
      'Content-Type: multipart/report; report-type=delivery-status; boundary="b"',
      "",
      "--b",
      "Content-Type: message/delivery-status",
      "",
      "Reporting-MTA: dns; mail.example",
      "",
      `Final-Recipient: rfc822; ${recipient}`,
      `Action: ${action}`,
      `Status: ${status}`,
      `Diagnostic-Code: smtp; ${diagnostic}`,
      "",
      "--b",
      "Content-Type: text/rfc822-headers",
      "",
      `Message-ID: ${messageId}`,
      "",
      "--b--",
    ].join("\r\n");
  const handOver = (raw: string, who = outbox.office()) =>
    who.post("/api/v1/mail/bounces").set("content-type", "message/rfc822").send(raw);
  const sent = async (recipient: string) => {
    const mail = await outbox.queue({ recipient });
    await outbox.setState(mail.id, { state: "sent", sentAt: OUTBOX_NOW });
    return mail;
  };

  test("marks the mail as returned and the address as failing, once", async () => {
    const customerId = await outbox.addCustomer("gone@rook.example");
    const mail = await sent("gone@rook.example");
    const raw = reportOn(mail.messageId, "GONE@rook.example");
    for (const reply of [await handOver(raw), await handOver(raw)]) {
      expect(reply.body).toEqual({
        ...{ mailId: mail.id, recipient: "gone@rook.example", action: "failed" },
        ...{ state: "returned", addressFailing: true },
      });
    }
    const read = await outbox.office().get(`/api/v1/mails/${mail.id}`);
    expect(read.body).toMatchObject({
      lastError: "Returned: 5.1.1: 550 5.1.1 no such user",
      sentAt: OUTBOX_NOW.toISOString(),
    });
    const failing = await outbox.office().get("/api/v1/mail/failing-addresses?limit=200");
    const entry = failing.body.items.find(
      (one: { customerId: string }) => one.customerId === customerId,
    );
    expect(entry).toMatchObject({
      email: "gone@rook.example",
      failingSince: OUTBOX_NOW.toISOString(),
    });
    const path = `/api/v1/mail/failing-addresses/${customerId}`;
    expect((await outbox.theirOffice().delete(path)).status).toBe(404);
    expect((await outbox.office().delete(path)).status).toBe(204);
    expect((await outbox.office().delete(path)).status).toBe(404);
    expect(
      (await outbox.office().get(`/api/v1/customers/${customerId}`)).body.emailFailingAt,
    ).toBeNull();
  });

  test.each([
    ["a full mailbox returns the mail alone", { status: "5.2.2" }, "returned", false],
    [
      "a status without meaning is read off the server's words",
      { status: "5.0.0" },
      "returned",
      true,
    ],
    ["a delay leaves it sent", { action: "delayed", status: "4.4.1" }, "sent", false],
    ["a delivery leaves it sent", { action: "delivered", status: "2.0.0" }, "sent", false],
  ])("%s", async (_what, about, state, addressFailing) => {
    const mail = await sent(`${uuidv7()}@rook.example`);
    const reply = await handOver(reportOn(mail.messageId, mail.recipient, about));
    expect(reply.body).toMatchObject({ state, addressFailing });
  });

  test("is taken by the operator's command, for the firm that wrote the mail", async () => {
    const folder = mkdtempSync(join(tmpdir(), "holdpoint-bounce-"));
    const run = (raw: string) => {
      const file = join(folder, "report.eml");
      writeFileSync(file, raw);
      const env = {
        PATH: process.env.PATH,
        DATABASE_URL: outbox.service.ownerUrl,
        DATA_DIR: folder,
      };
      return new Promise<{ code: number; said: string }>((resolve) =>
        execFile(process.execPath, [CLI, "mail", "bounce", file], { env }, (error, out, told) =>
          resolve({ code: Number(error?.code ?? 0), said: `${out}${told}` }),
        ),
      );
    };
    const mail = await sent(`${uuidv7()}@rook.example`);
    const taken = await run(reportOn(mail.messageId, mail.recipient));
    expect(taken.said).toContain(
      `alder: mail ${mail.id} to ${mail.recipient}: failed, now returned`,
    );
    expect(taken.code).toBe(0);
    const strange = await run(reportOn("<x@elsewhere.example>", mail.recipient));
    expect([strange.code, strange.said]).toEqual([1, expect.stringContaining("no mail of your")]);
    rmSync(folder, { recursive: true, force: true });
  });

  test("is refused when it is none, about another mail, or about another address", async () => {
    const mail = await sent("some@rook.example");
    const none = await handOver("Subject: Hello\r\n\r\nText");
    expect([none.status, pointers(none)]).toEqual([422, ["/body"]]);
    const strange = await handOver(reportOn("<x@elsewhere.example>", "some@rook.example"));
    expect([strange.status, strange.body.detail]).toEqual([
      404,
      "The report is about <x@elsewhere.example>, which is no mail of your firm.",
    ]);
    const other = await handOver(reportOn(mail.messageId, "other@rook.example"));
    expect([other.status, pointers(other)]).toEqual([422, ["/body"]]);
    const raw = reportOn(mail.messageId, "some@rook.example");
    expect((await handOver(raw, outbox.theirOffice())).status).toBe(404);
    expect(
      (await handOver(raw, outbox.service.as(outbox.service.firm.people.manager))).status,
    ).toBe(403);
    const plain = await outbox
      .office()
      .post("/api/v1/mail/bounces")
      .set("content-type", "application/octet-stream")
      .send(raw);
    expect(plain.status).toBe(415);
    expect((await outbox.office().get(`/api/v1/mails/${mail.id}`)).body.state).toBe("sent");
  });
});
