import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { queueMail } from "../../src/features/mail/store.ts";
import { startService, type TestService } from "../support/app.ts";
import { type MailServer, sendAt, startMailServer } from "../support/smtp.ts";

const SENDER = fileURLToPath(new URL("killed-sender.ts", import.meta.url));
const T0 = new Date("2026-11-20T09:00:00Z");
const minutesOn = (minutes: number) => new Date(T0.getTime() + minutes * 60_000);

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

const startSender = (now: Date): ChildProcess =>
  spawn(process.execPath, [SENDER, service.appUrl, server.url, now.toISOString()], {
    stdio: "ignore",
  });
const inOwnFirm = <T>(work: Parameters<typeof inFirm<T>>[2]) =>
  inFirm(service.db, service.firm.firmId, work);
const send = (now: Date) => sendAt(service.db, { SMTP_URL: server.url }, now);

test("a sender killed after the server took a mail and before the mark loses nothing", async () => {
  const texts = { subject: "Kept", textBody: "Text", htmlBody: "<p>Text</p>" };
  const mail = { recipient: "office@alder.example", host: "holdpoint.example", ...texts };
  const { id, messageId } = await inOwnFirm((tx) => queueMail(tx, mail, T0));
  server.silent = true;
  const sender = startSender(T0);
  const dead = once(sender, "exit");
  await expect.poll(() => server.received.length, { timeout: 20_000 }).toBe(1);
  sender.kill("SIGKILL");
  expect((await dead)[1]).toBe("SIGKILL");
  server.silent = false;
  const state = () => inOwnFirm((tx) => tx.mail.findFirstOrThrow({ where: { id } }));
  expect(await state()).toMatchObject({ state: "waiting", attempts: 1 });
  // Whoever comes while the claim holds leaves the mail alone.
  expect(await send(minutesOn(9))).toMatchObject({ sent: 0 });
  expect(await send(minutesOn(10))).toMatchObject({ sent: 1 });
  expect(await state()).toMatchObject({ state: "sent", attempts: 2 });
  // The double can be told: it says that it is the same mail.
  expect(server.received.map((copy) => copy.messageId)).toEqual([messageId, messageId]);
});

test("a mail whose last attempt died without an answer has failed, and says so", async () => {
  const texts = { subject: "Last", textBody: "Text", htmlBody: "<p>Text</p>" };
  const mail = { recipient: "office@alder.example", host: "holdpoint.example", ...texts };
  const { id } = await inOwnFirm((tx) => queueMail(tx, mail, T0));
  await inOwnFirm((tx) => tx.mail.updateMany({ where: { id }, data: { attempts: 6 } }));
  expect(await send(T0)).toMatchObject({ sent: 0, failed: 1 });
  const kept = await inOwnFirm((tx) => tx.mail.findFirstOrThrow({ where: { id } }));
  expect(kept).toMatchObject({
    state: "failed",
    lastError: expect.stringContaining("last attempt"),
  });
});
