import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { simpleParser } from "mailparser";
import { uuidv7 } from "uuidv7";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { connect } from "../../src/db/client.ts";
import { inFirm } from "../../src/db/scope.ts";
import { queueMail } from "../../src/features/mail/store.ts";
import { startService, type TestService } from "../support/app.ts";
import { type MailServer, sendAt, startMailServer } from "../support/smtp.ts";

let service: TestService;
let server: MailServer;
const folder = mkdtempSync(join(tmpdir(), "holdpoint-mail-"));
const T0 = new Date("2026-11-20T09:00:00Z");
const minutesOn = (minutes: number) => new Date(T0.getTime() + minutes * 60_000);

beforeAll(async () => {
  service = await startService();
  server = await startMailServer();
});
afterAll(async () => {
  await server.stop();
  await service.stop();
  rmSync(folder, { recursive: true, force: true });
});
beforeEach(() => {
  server.received.length = 0;
});
afterEach(() => expect(server.refusals).toEqual([]));

const inOwnFirm = <T>(work: Parameters<typeof inFirm<T>>[2]) =>
  inFirm(service.db, service.firm.firmId, work);
const send = (now: Date) => sendAt(service.db, { SMTP_URL: server.url }, now);
const queue = (recipient = "someone@site.example") => {
  const body = { textBody: "Grüße, 50 °C", htmlBody: "<p>Grüße, 50 °C</p>" };
  const mail = { recipient, subject: `Mail ${uuidv7()}`, host: "holdpoint.example", ...body };
  return inOwnFirm((tx) => queueMail(tx, mail, T0));
};
const stateOf = (id: string) => inOwnFirm((tx) => tx.mail.findFirstOrThrow({ where: { id } }));

describe("a mail", () => {
  test("arrives once, whole, under its own Message-ID", async () => {
    const { id, subject, messageId } = await queue();
    expect(await send(T0)).toEqual({ sent: 1, filed: 0, postponed: 0, failed: 0 });
    expect(await send(minutesOn(60))).toMatchObject({ sent: 0 });
    const [mail] = server.received;
    expect(server.received).toHaveLength(1);
    expect([mail!.subject, mail!.messageId]).toEqual([subject, messageId]);
    expect(messageId).toMatch(/^<[0-9a-f-]{36}@holdpoint\.example>$/);
    expect(mail!.text?.trim()).toBe("Grüße, 50 °C");
    expect(mail!.html).toContain("<p>Grüße, 50 °C</p>");
    expect(await stateOf(id)).toMatchObject({ state: "sent", attempts: 1, lastError: null });
  });

  test.each(["data", "recipient"] as const)(
    "put off at the %s (RFC 5321: 4yz) is tried again a minute later and arrives once",
    async (at) => {
      const { id } = await queue();
      server.refusals.push({ at, code: 451 });
      expect(await send(T0)).toMatchObject({ postponed: 1, sent: 0 });
      expect(await send(T0)).toMatchObject({ postponed: 0, sent: 0 });
      expect(await stateOf(id)).toMatchObject({ state: "waiting", attempts: 1 });
      expect(await send(minutesOn(1))).toMatchObject({ sent: 1 });
      expect(server.received).toHaveLength(1);
    },
  );

  test.each(["data", "recipient"] as const)(
    "refused at the %s (RFC 5321: 5yz) has failed at once, with the server's words",
    async (at) => {
      const { id } = await queue();
      server.refusals.push({ at, code: 550 });
      expect(await send(T0)).toMatchObject({ failed: 1, postponed: 0 });
      const mail = await stateOf(id);
      expect([mail.state, mail.attempts]).toEqual(["failed", 1]);
      expect(mail.lastError).toContain("550");
      expect(await send(minutesOn(1))).toMatchObject({ sent: 0, failed: 0 });
    },
  );

  test("is tried six times, ever less often, and then has failed", async () => {
    const { id } = await queue();
    let minute = 0;
    for (const wait of [1, 5, 15, 60, 240]) {
      server.refusals.push({ at: "data", code: 451 });
      expect(await send(minutesOn(minute))).toMatchObject({ postponed: 1 });
      expect(await send(minutesOn(minute + wait - 0.01))).toMatchObject({ postponed: 0, sent: 0 });
      minute += wait;
    }
    server.refusals.push({ at: "data", code: 451 });
    expect(await send(minutesOn(minute))).toMatchObject({ failed: 1 });
    expect(await stateOf(id)).toMatchObject({ state: "failed", attempts: 6 });
  });

  test("that failed begins anew when a person resends it", async () => {
    const { id, messageId } = await queue();
    server.refusals.push({ at: "data", code: 550 });
    await send(T0);
    const office = service.as(service.firm.people.office);
    const path = `/api/v1/mails/${id}/resend`;
    const reply = await office.post(path);
    expect([reply.status, reply.body.state, reply.body.attempts]).toEqual([201, "waiting", 0]);
    expect((await office.post(path)).status).toBe(409);
    await send(new Date(Date.now() + 1000));
    expect(server.received.map((mail) => mail.messageId)).toEqual([messageId]);
  });
});

describe("the outbox", () => {
  test("stops at a server that answers nobody, and goes on when it is back", async () => {
    const mails = [await queue(), await queue(), await queue()];
    const closed = createServer();
    await new Promise<void>((resolve) => closed.listen(0, "127.0.0.1", resolve));
    const { port } = closed.address() as { port: number };
    await new Promise((resolve) => closed.close(resolve));
    const away = { SMTP_URL: `smtp://127.0.0.1:${port}` };
    expect(await sendAt(service.db, away, T0)).toMatchObject({ postponed: 1, sent: 0 });
    const attempts = await Promise.all(mails.map(async ({ id }) => (await stateOf(id)).attempts));
    expect(attempts.sort()).toEqual([0, 0, 1]);
    expect(await send(minutesOn(1))).toMatchObject({ sent: 3 });
  });

  test("goes out once though four instances send at the same moment", async () => {
    for (let count = 0; count < 12; count += 1) await queue(`person${count}@site.example`);
    const instances = [1, 2, 3, 4].map(() => connect({ url: service.appUrl, poolSize: 4 }));
    const environment = { SMTP_URL: server.url };
    await Promise.all(instances.map((db) => sendAt(db, environment, T0)));
    await Promise.all(instances.map((db) => db.close()));
    const ids = server.received.map((mail) => mail.messageId);
    expect([ids.length, new Set(ids).size]).toEqual([12, 12]);
  });

  test("waits as files without a mail server, and goes out once there is one", async () => {
    const { id, subject, messageId } = await queue();
    expect(await sendAt(service.db, {}, T0, folder)).toMatchObject({ filed: 1 });
    expect(await sendAt(service.db, {}, minutesOn(60 * 24), folder)).toMatchObject({ filed: 0 });
    expect(readdirSync(join(folder, "mail"))).toEqual([`${id}.eml`]);
    const path = join(folder, "mail", `${id}.eml`);
    expect(statSync(path).mode & 0o077).toBe(0);
    const mail = await simpleParser(readFileSync(path));
    expect([mail.subject, mail.messageId]).toEqual([subject, messageId]);
    const kept = await stateOf(id);
    expect(kept).toMatchObject({ state: "waiting", attempts: 0 });
    expect(kept.lastError).toContain("SMTP_URL");
    expect(await send(minutesOn(60 * 24))).toMatchObject({ sent: 1 });
    expect(server.received[0]!.messageId).toBe(messageId);
  });

  test("does not send what waited for more than five days without a mail server", async () => {
    const { id } = await queue();
    expect(await send(minutesOn(5 * 24 * 60 + 1))).toMatchObject({ failed: 1, sent: 0 });
    expect(await stateOf(id)).toMatchObject({ state: "failed", attempts: 0 });
    const next = await queue();
    expect(await send(minutesOn(5 * 24 * 60))).toMatchObject({ failed: 0, sent: 1 });
    expect((await stateOf(next.id)).state).toBe("sent");
  });
});
