// Cancellations, reminders, what a firm may set, and addresses that fail.
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { connect } from "../../src/db/client.ts";
import { writeVisitMails } from "../../src/runs/visit-mails.ts";
import {
  DAY,
  EARLY,
  entryOf,
  LONG_DAY,
  MAIL_CONFIG,
  startVisitDesk,
  type VisitDesk,
} from "../support/visit-desk.ts";

let desk: VisitDesk;
beforeAll(async () => {
  desk = await startVisitDesk();
});
afterAll(() => desk.stop());
beforeEach(async () => {
  await desk.clear();
  desk.server.received.length = 0;
});

describe("a cancellation", () => {
  test("goes out as METHOD:CANCEL with STATUS:CANCELLED (RFC 5546 3.2.5)", async () => {
    const visit = await desk.book((await desk.newJob()).id);
    await desk.write(EARLY);
    await desk.send(EARLY);
    await desk.cancel(visit);
    await desk.write(EARLY);
    await desk.send(EARLY);
    expect(desk.server.received[1]!.subject).toBe(`Your visit on ${LONG_DAY} is cancelled`);
    expect(entryOf(desk.server.received[1]!)).toMatchObject({
      ...{ method: "CANCEL", status: "CANCELLED", uid: visit, sequence: 1 },
    });
  });

  test("of a whole job tells its visits to come", async () => {
    const job = await desk.newJob();
    const visit = await desk.book(job.id);
    await desk.write(EARLY);
    await desk.send(EARLY);
    const reply = await desk
      .office()
      .post(`/api/v1/jobs/${job.id}/cancellation`)
      .send({ reason: "The customer withdrew" });
    expect(reply.status).toBe(201);
    await desk.write(EARLY);
    expect(await desk.kindsOf(visit)).toEqual([
      "visit-confirmation sent",
      "visit-cancellation waiting",
    ]);
  });
});

describe("a reminder", () => {
  const told = async (day = DAY) => {
    const visit = await desk.book((await desk.newJob()).id, "08:30", "12:00", day);
    await desk.write(EARLY);
    return visit;
  };

  test("comes the working day before at the firm's hour, once", async () => {
    const visit = await told();
    expect(await desk.write(new Date("2031-05-14T08:59:59Z"))).toMatchObject({ reminded: 0 });
    expect(await desk.write(new Date("2031-05-14T09:00:00Z"))).toMatchObject({ reminded: 1 });
    expect(await desk.write(new Date("2031-05-14T09:01:00Z"))).toMatchObject({ reminded: 0 });
    expect(await desk.standing(visit)).toEqual(["visit-confirmation", "visit-reminder"]);
  });

  test("for a Monday after Christmas comes on the Wednesday before", async () => {
    await told("2031-12-29");
    expect(await desk.write(new Date("2031-12-24T09:59:59Z"))).toMatchObject({ reminded: 0 });
    expect(await desk.write(new Date("2031-12-24T10:00:00Z"))).toMatchObject({ reminded: 1 });
  });

  test("is left out where the customer was told of the hours since it was due", async () => {
    const visit = await desk.book((await desk.newJob()).id);
    const late = new Date("2031-05-14T15:00:00Z");
    expect(await desk.write(late)).toEqual({ written: 1, reminded: 0 });
    expect(await desk.write(new Date("2031-05-14T16:00:00Z"))).toEqual({ written: 0, reminded: 0 });
    expect(await desk.standing(visit)).toEqual(["visit-confirmation"]);
  });

  test("of a visit moved to another day comes again for that day", async () => {
    const visit = await told();
    await desk.write(new Date("2031-05-14T09:00:00Z"));
    const { headers } = await desk.office().get(`/api/v1/visits/${visit}`);
    await desk
      .office()
      .patch(`/api/v1/visits/${visit}`)
      .set("if-match", headers.etag!)
      .send({ local: { day: "2031-05-20", from: "08:30", to: "12:00" } });
    await desk.write(new Date("2031-05-14T12:00:00Z"));
    expect(await desk.write(new Date("2031-05-19T09:00:00Z"))).toMatchObject({ reminded: 1 });
  });
});

describe("the firm's settings", () => {
  test("keep kinds from going out; what follows from them is still told", async () => {
    await desk.set({ confirmation: false, reminder: false });
    const visit = await desk.book((await desk.newJob()).id);
    expect(await desk.write(EARLY)).toEqual({ written: 0, reminded: 0 });
    await desk.move(visit, "09:00", "12:00");
    await desk.write(EARLY);
    expect(await desk.write(new Date("2031-05-14T12:00:00Z"))).toMatchObject({ reminded: 0 });
    expect(await desk.standing(visit)).toEqual(["visit-change"]);
    await desk.set({ confirmation: true, reminder: true });
  });

  test("name the sender and where an answer goes, as organizer of the entry too", async () => {
    await desk.set({ senderName: "Alder Storage", replyTo: "office@alder.example" });
    await desk.book((await desk.newJob()).id);
    await desk.write(EARLY);
    await desk.send(EARLY);
    const [mail] = desk.server.received;
    expect(mail!.from?.value[0]?.name).toBe("Alder Storage");
    expect(mail!.replyTo?.value[0]?.address).toBe("office@alder.example");
    const file = mail!.attachments.find(({ filename }) => filename === "visit.ics")!;
    const lines = file.content.toString("utf8").replaceAll("\r\n ", "");
    expect(lines).toContain("ORGANIZER;CN=Alder Storage:mailto:office@alder.example");
    expect(mail!.text).toContain("please answer this mail");
    await desk.set({ senderName: null, replyTo: null });
  });

  test("keep quiet hours by the firm's clock: nothing leaves till they end", async () => {
    await desk.set({ quietFrom: "20:00", quietTo: "08:00" });
    const [job, other] = [await desk.newJob(), await desk.newJob()];
    const first = await desk.book(job.id, "08:30", "10:00");
    // 19:59, 20:00 and 08:00 of British Summer Time.
    expect(await desk.write(new Date("2031-05-05T18:59:00Z"))).toMatchObject({ written: 1 });
    expect(await desk.send(new Date("2031-05-05T19:00:00Z"))).toMatchObject({ sent: 0 });
    const second = await desk.book(other.id, "10:00", "12:00");
    expect(await desk.write(new Date("2031-05-05T23:00:00Z"))).toMatchObject({ written: 0 });
    expect(await desk.write(new Date("2031-05-06T06:59:00Z"))).toMatchObject({ written: 0 });
    expect(await desk.write(new Date("2031-05-06T07:00:00Z"))).toMatchObject({ written: 1 });
    expect(await desk.send(new Date("2031-05-06T07:00:00Z"))).toMatchObject({ sent: 2 });
    expect([...(await desk.kindsOf(first)), ...(await desk.kindsOf(second))]).toEqual([
      "visit-confirmation sent",
      "visit-confirmation sent",
    ]);
    await desk.set({ quietFrom: null, quietTo: null });
  });
});

describe("an address", () => {
  test("refused for good gets nothing more until it is mended", async () => {
    const job = await desk.newJob({ email: "gone@rook.example" });
    const [first, second] = [
      await desk.book(job.id, "08:00", "09:00"),
      await desk.book(job.id, "10:00", "11:00"),
    ];
    await desk.write(EARLY);
    desk.server.refusals.push({ at: "recipient", code: 550 });
    expect(await desk.send(EARLY)).toMatchObject({ failed: 1, sent: 0 });
    const path = `/api/v1/customers/${job.customerId}`;
    const failing = await desk.office().get(path);
    expect(failing.body.emailFailingAt).not.toBeNull();
    expect(failing.body.emailFailingReason).toContain("550");
    await desk.move(first, "08:15", "09:00");
    expect(await desk.write(EARLY)).toMatchObject({ written: 0 });
    await desk
      .office()
      .patch(path)
      .set("if-match", failing.headers.etag!)
      .send({ email: "new@rook.example" });
    expect((await desk.office().get(path)).body).toMatchObject({ emailFailingAt: null });
    expect(await desk.write(EARLY)).toMatchObject({ written: 1 });
    await desk.send(EARLY);
    expect(await desk.standing(first)).toEqual(["visit-confirmation", "visit-confirmation"]);
    expect(await desk.kindsOf(second)).toEqual(["visit-confirmation sent"]);
  });
});

test("four instances at the same moment write each mail once", async () => {
  const visits = [];
  for (let hour = 6; hour < 14; hour += 1) {
    const [from, to] = [hour, hour + 1].map((one) => `${String(one).padStart(2, "0")}:00`);
    visits.push(await desk.book((await desk.newJob()).id, from, to));
  }
  const instances = [1, 2, 3, 4].map(() => connect({ url: desk.service.appUrl, poolSize: 4 }));
  const at = new Date("2031-05-14T09:00:00Z");
  const figures = await Promise.all(instances.map((db) => writeVisitMails(db, MAIL_CONFIG, EARLY)));
  const reminded = await Promise.all(instances.map((db) => writeVisitMails(db, MAIL_CONFIG, at)));
  await Promise.all(instances.map((db) => db.close()));
  expect(figures.reduce((sum, { written }) => sum + written, 0)).toBe(8);
  expect(reminded.reduce((sum, one) => sum + one.reminded, 0)).toBe(8);
  for (const id of visits) {
    expect(await desk.kindsOf(id)).toEqual([
      "visit-confirmation waiting",
      "visit-reminder waiting",
    ]);
  }
});
