// Visits that customers are told of: booked over the interface, told by the run, sent to a server
// that holds a real SMTP conversation.
import type { ParsedMail } from "mailparser";
import { expect } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { editMailSettings, readMailSettings } from "../../src/features/mail/settings-store.ts";
import { longDay } from "../../src/language/moments.ts";
import { writeVisitMails } from "../../src/runs/visit-mails.ts";
import { startService, type TestService } from "./app.ts";
import { readCalendar } from "./calendar.ts";
import { mailConfig, sendAt, startMailServer } from "./smtp.ts";
import { rowsIn, SMALL_PLAN } from "./work-rows.ts";

/** A Thursday years ahead, so that the run can be made at any hour before it. */
export const DAY = "2031-05-15";
export const LONG_DAY = longDay("en", DAY);
export const EARLY = new Date("2031-05-01T12:00:00Z");
export const MAIL_CONFIG = mailConfig({ MAIL_FROM: "Holdpoint <post@holdpoint.example>" });

/** The database sets by its own clock when a customer is to be told. */
export const soon = (minutes: number): Date => new Date(Date.now() + minutes * 60_000);

export type VisitDesk = Awaited<ReturnType<typeof startVisitDesk>>;

export async function startVisitDesk() {
  const service = await startService();
  const server = await startMailServer();
  const rows = rowsIn(service);
  const planVersionId = (await rows.planVersion(SMALL_PLAN)).id;
  const crewId = await rows.crew("North crew", [await rows.person("Bo Ash")]);
  const inOwnFirm = inFirmOf(service);
  const newJob = async (customer: { email?: string | null; language?: string } = {}) => {
    const { id: siteId, customerId } = await rows.site();
    const data = { email: "ida@rook.example", ...customer };
    await inOwnFirm((tx) => tx.customer.updateMany({ where: { id: customerId }, data }));
    return { id: await rows.job(siteId, planVersionId), siteId, customerId };
  };
  const stop = async (): Promise<void> => {
    await server.stop();
    await service.stop();
  };
  const write = (now: Date) => writeVisitMails(service.db, MAIL_CONFIG, now);
  const send = (now: Date) => sendAt(service.db, { SMTP_URL: server.url }, now);
  const set = (change: Parameters<typeof editMailSettings>[2]) =>
    inOwnFirm(async (tx) => editMailSettings(tx, (await readMailSettings(tx)).version, change));
  const own = { crewId, service, server, inOwnFirm, newJob, stop, write, send, set };
  return { ...own, ...diary(service, crewId), ...outbox(service) };
}

const inFirmOf =
  (service: TestService) =>
  <T>(work: Parameters<typeof inFirm<T>>[2]) =>
    inFirm(service.db, service.firm.firmId, work);

function diary(service: TestService, crewId: string) {
  const office = () => service.as(service.firm.people.office);
  const edit = async (id: string, change: object): Promise<void> => {
    const { headers } = await office().get(`/api/v1/visits/${id}`);
    const path = `/api/v1/visits/${id}`;
    const reply = await office().patch(path).set("if-match", headers.etag!).send(change);
    expect(reply.status).toBe(200);
  };
  return {
    office,
    edit,
    book: async (jobId: string, from = "08:30", to = "12:00", day = DAY): Promise<string> => {
      const local = { day, from, to };
      const reply = await office().post(`/api/v1/jobs/${jobId}/visits`).send({ crewId, local });
      expect(reply.status).toBe(201);
      return reply.body.id;
    },
    move: (id: string, from: string, to: string) => edit(id, { local: { day: DAY, from, to } }),
    cancel: (id: string) => office().post(`/api/v1/visits/${id}/cancellation`),
  };
}

function outbox(service: TestService) {
  const inOwnFirm = inFirmOf(service);
  const mailsOf = (visitId: string) =>
    inOwnFirm((tx) => tx.mail.findMany({ where: { visitId }, orderBy: { id: "asc" } }));
  return {
    mailsOf,
    kindsOf: async (visitId: string) =>
      (await mailsOf(visitId)).map(({ kind, state }) => `${kind} ${state}`),
    /** Those that were not given up. */
    standing: async (visitId: string) =>
      (await mailsOf(visitId)).filter(({ state }) => state !== "cancelled").map(({ kind }) => kind),
    /** What an earlier test left is not told or sent in the next. */
    clear: () =>
      inOwnFirm(async (tx) => {
        await tx.visit.updateMany({ data: { state: "cancelled" } });
        await tx.visitBooking.deleteMany({});
        await tx.visitTelling.updateMany({ data: { dueAt: null, changedAt: null } });
        const where = { state: "waiting" };
        await tx.mail.updateMany({ where, data: { state: "cancelled" } });
      }),
  };
}

/** The calendar entry that a mail carries, read by ical.js. */
export function entryOf(mail: ParsedMail) {
  const file = mail.attachments.find(({ filename }) => filename?.endsWith(".ics"))!;
  const { method, events } = readCalendar(file.content.toString("utf8"));
  return { method, type: file.contentType, ...events[0]! };
}
