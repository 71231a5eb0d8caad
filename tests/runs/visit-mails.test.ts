// What a customer is told of a visit that is booked and of one that is moved.
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { editFirmFacts } from "../../src/features/firms/branding-store.ts";
import { longDay } from "../../src/language/moments.ts";
import {
  DAY,
  EARLY,
  entryOf,
  LONG_DAY,
  soon,
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

describe("a booking", () => {
  test("is told once, after the hold-back, with a calendar entry that reads back", async () => {
    const job = await desk.newJob();
    const visit = await desk.book(job.id);
    expect(await desk.write(soon(4))).toEqual({ written: 0, reminded: 0 });
    expect(await desk.write(soon(6))).toEqual({ written: 1, reminded: 0 });
    expect(await desk.write(EARLY)).toEqual({ written: 0, reminded: 0 });
    expect(await desk.send(soon(7))).toMatchObject({ sent: 1 });
    const [mail] = desk.server.received;
    expect(mail!.subject).toBe(`Your visit on ${LONG_DAY}`);
    for (const text of [mail!.text, String(mail!.html)]) {
      expect(text).toContain(`${LONG_DAY}, 08:30 to 12:00`);
      expect(text).toContain("4 Kiln Lane, Thornbeck TB4 1AA");
    }
    expect(mail!.from?.value[0]?.name).toBe("alder");
    expect(entryOf(mail!)).toMatchObject({
      ...{ method: "REQUEST", uid: visit, sequence: 0, status: "CONFIRMED" },
      ...{ start: "2031-05-15T07:30:00.000Z", type: "text/calendar" },
    });
  });

  test("closes with how the firm is reached, in its colour", async () => {
    await desk.inOwnFirm((tx) =>
      editFirmFacts(tx, 1, {
        ...{ address: "1 Kiln & Co Yard\nThornbeck", phone: "01632 960 001" },
        colour: "#103a70",
      }),
    );
    const visit = await desk.book((await desk.newJob()).id);
    await desk.write(EARLY);
    const [mail] = await desk.mailsOf(visit);
    expect(mail!.textBody).toMatch(/\nalder\n1 Kiln & Co Yard\nThornbeck\n01632 960 001\n$/);
    expect(mail!.htmlBody).toContain(
      '<strong style="color: #103a70">alder</strong><br>1 Kiln &amp; Co Yard<br>Thornbeck<br>01632',
    );
  });

  test("is told in the customer's language, else in the firm's", async () => {
    const [spanish, plain] = [await desk.newJob({ language: "es" }), await desk.newJob()];
    const one = await desk.book(spanish.id, "08:00", "09:00");
    const other = await desk.book(plain.id, "09:00", "10:00");
    await desk.write(EARLY);
    const subjects = [...(await desk.mailsOf(one)), ...(await desk.mailsOf(other))];
    expect(subjects.map(({ subject }) => subject)).toEqual([
      `Su visita del ${longDay("es", DAY)}`,
      `Your visit on ${LONG_DAY}`,
    ]);
  });

  test("that is taken back leaves nothing to be told", async () => {
    const visit = await desk.book((await desk.newJob()).id);
    await desk.cancel(visit);
    await desk.write(EARLY);
    expect(await desk.mailsOf(visit)).toEqual([]);
  });

  test("that fails in its last moment leaves nothing to be told", async () => {
    const job = await desk.newJob();
    const count = () => desk.inOwnFirm((tx) => tx.visitTelling.count());
    const before = await count();
    const id = uuidv7();
    const booking = desk.inOwnFirm(async (tx) => {
      const hours = { startsAt: EARLY, endsAt: new Date(EARLY.getTime() + 3_600_000) };
      const own = { firmId: tx.firmId, id, jobId: job.id, crewId: desk.crewId };
      await tx.visit.create({ data: { ...own, ...hours } });
      expect(await tx.visitTelling.count()).toBe(before + 1);
      throw new Error("the machine stopped");
    });
    await expect(booking).rejects.toThrow("the machine stopped");
    expect(await count()).toBe(before);
  });

  test("for a customer without an address is told once there is one", async () => {
    const job = await desk.newJob({ email: null });
    const visit = await desk.book(job.id);
    expect(await desk.write(EARLY)).toEqual({ written: 0, reminded: 0 });
    const path = `/api/v1/customers/${job.customerId}`;
    const { headers } = await desk.office().get(path);
    await desk
      .office()
      .patch(path)
      .set("if-match", headers.etag!)
      .send({ email: "late@rook.example" });
    await desk.write(EARLY);
    expect(await desk.kindsOf(visit)).toEqual(["visit-confirmation waiting"]);
  });

  test("that has begun by the time it would be told is not told", async () => {
    const visit = await desk.book((await desk.newJob()).id);
    await desk.write(new Date("2031-05-15T07:30:00Z"));
    expect(await desk.mailsOf(visit)).toEqual([]);
  });
});

describe("a change", () => {
  test("made thrice within the hold-back is one mail, its SEQUENCE past them all", async () => {
    const visit = await desk.book((await desk.newJob()).id);
    await desk.write(EARLY);
    await desk.send(EARLY);
    for (const from of ["09:00", "10:00", "11:00"]) await desk.move(visit, from, "13:00");
    await desk.write(EARLY);
    await desk.send(EARLY);
    expect(await desk.kindsOf(visit)).toEqual(["visit-confirmation sent", "visit-change sent"]);
    const entries = desk.server.received.map(entryOf);
    expect(entries.map(({ uid }) => uid)).toEqual([visit, visit]);
    expect(entries.map(({ sequence }) => sequence)).toEqual([0, 3]);
    expect(entries[1]!.start).toBe("2031-05-15T10:00:00.000Z");
    expect(desk.server.received[1]!.text).toContain(`Until now: ${LONG_DAY}, 08:30 to 12:00`);
  });

  test("that ends where it began is not told, nor one of the note alone", async () => {
    const visit = await desk.book((await desk.newJob()).id);
    await desk.write(EARLY);
    await desk.move(visit, "09:00", "12:00");
    await desk.move(visit, "08:30", "12:00");
    const { headers } = await desk.office().get(`/api/v1/visits/${visit}`);
    await desk
      .office()
      .patch(`/api/v1/visits/${visit}`)
      .set("if-match", headers.etag!)
      .send({ note: "Ring at the gate" });
    await desk.write(EARLY);
    expect(await desk.kindsOf(visit)).toEqual(["visit-confirmation waiting"]);
  });

  test("replaces a mail that has not left: nobody reads a time that no longer holds", async () => {
    const visit = await desk.book((await desk.newJob()).id);
    await desk.write(EARLY);
    await desk.move(visit, "09:00", "12:00");
    await desk.write(EARLY);
    expect(await desk.kindsOf(visit)).toEqual([
      "visit-confirmation cancelled",
      "visit-confirmation waiting",
    ]);
    await desk.send(EARLY);
    expect(desk.server.received.map((mail) => entryOf(mail).sequence)).toEqual([1]);
  });

  test("after a confirmation that failed is told as a booking", async () => {
    const visit = await desk.book((await desk.newJob({ email: "once@rook.example" })).id);
    await desk.write(EARLY);
    desk.server.refusals.push({ at: "data", code: 554 });
    await desk.send(EARLY);
    await desk.move(visit, "09:00", "12:00");
    await desk.write(EARLY);
    expect(await desk.standing(visit)).toEqual(["visit-confirmation", "visit-confirmation"]);
  });

  test("waits no longer than six hold-backs, however often the visit is moved", async () => {
    const visit = await desk.book((await desk.newJob()).id);
    const held = soon(-29);
    await desk.inOwnFirm((tx) =>
      tx.visitTelling.updateMany({ where: { visitId: visit }, data: { changedAt: held } }),
    );
    await desk.move(visit, "09:00", "12:00");
    const { dueAt } = await desk.inOwnFirm((tx) =>
      tx.visitTelling.findFirstOrThrow({ where: { visitId: visit } }),
    );
    expect(dueAt!.getTime()).toBe(held.getTime() + 30 * 60_000);
  });
});
