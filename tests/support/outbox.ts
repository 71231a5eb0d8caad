// A firm whose mails lie in the outbox, and another firm that has nothing to do with them.
import { expect } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { type NewMail, queueMail } from "../../src/features/mail/store.ts";
import { startService, type TestService } from "./app.ts";

export type Outbox = Awaited<ReturnType<typeof startOutbox>>;

/** The clock of the service, and of what is put into the outbox, stands here. */
export const OUTBOX_NOW = new Date("2026-11-25T12:00:00Z");

const ENVIRONMENT = {
  SMTP_URL: "smtp://mail.example",
  MAIL_FROM: "Holdpoint <post@holdpoint.example>",
};

export async function startOutbox() {
  const service = await startService({ now: () => OUTBOX_NOW, environment: ENVIRONMENT });
  const birch = await service.addFirm("birch");
  const office = () => service.as(service.firm.people.office);
  const theirOffice = () => service.as(birch.people.office);
  const inOwnFirm = <T>(work: Parameters<typeof inFirm<T>>[2]) =>
    inFirm(service.db, service.firm.firmId, work);
  const queue = (mail: Partial<NewMail> = {}) => {
    const texts = { subject: "Grüße aus Alder", textBody: "Text, 50 °C", htmlBody: "<p>Text</p>" };
    const whole = { recipient: "ida@rook.example", host: "holdpoint.example", ...texts, ...mail };
    return inOwnFirm((tx) => queueMail(tx, whole, OUTBOX_NOW));
  };
  const setState = (id: string, data: object) =>
    inOwnFirm((tx) => tx.mail.updateMany({ where: { id }, data }));
  const addCustomer = async (email: string): Promise<string> => {
    const reply = await office().post("/api/v1/customers").send({ name: "Ida Rook", email });
    expect(reply.status).toBe(201);
    return reply.body.id;
  };
  return { service, birch, office, theirOffice, inOwnFirm, queue, setState, addCustomer };
}

/** A mail of any firm's outbox that waits to leave. */
export async function queueOne({ db, firm }: TestService): Promise<void> {
  const texts = { subject: "Visit moved", textBody: "Text", htmlBody: "<p>Text</p>" };
  const mail = { recipient: "ida@rook.example", host: "holdpoint.example", ...texts };
  await inFirm(db, firm.firmId, (tx) => queueMail(tx, mail, new Date()));
}
