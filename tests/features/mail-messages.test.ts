// A mail as a message, what it waits for, and the settings by which mails leave.
import { simpleParser } from "mailparser";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { OUTBOX_NOW, type Outbox, startOutbox } from "../support/outbox.ts";
import { pointers } from "../support/reading.ts";

let outbox: Outbox;
beforeAll(async () => {
  outbox = await startOutbox();
});
afterAll(() => outbox.service.stop());

describe("a mail", () => {
  const calendar = {
    name: "visit.ics",
    contentType: "text/calendar; method=REQUEST",
    content: Buffer.from("BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n"),
  };
  const scan = {
    name: "plan ä.pdf",
    contentType: "application/pdf",
    content: Buffer.from([0, 255]),
  };
  const queued = () =>
    outbox.queue({
      ...{ senderName: "Alder, Söhne", replyTo: "office@alder.example" },
      attachments: [calendar, scan],
    });
  const fetched = (id: string) =>
    outbox
      .office()
      .get(`/api/v1/mails/${id}/message`)
      .buffer(true)
      .parse((reply, done) => {
        const parts: Buffer[] = [];
        reply.on("data", (part: Buffer) => parts.push(part));
        reply.on("end", () => done(null, Buffer.concat(parts)));
      });

  test("is fetched as a message, the same each time, in lines after RFC 5322 2.1.1", async () => {
    const { id } = await queued();
    const reply = await fetched(id);
    expect(reply.headers["content-type"]).toBe("message/rfc822");
    expect(reply.headers["content-disposition"]).toBe(`attachment; filename="${id}.eml"`);
    expect((reply.body as Buffer).equals((await fetched(id)).body)).toBe(true);
    const raw = (reply.body as Buffer).toString("latin1");
    expect(raw.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    expect(raw.split("\r\n").filter((line) => line.length > 998)).toEqual([]);
    // The invitation stands among the ways to read the text too (RFC 6047 2.4).
    expect(raw).toMatch(/multipart\/alternative[\s\S]*text\/calendar; *method=REQUEST/);
  });

  test("is taken apart by a general-purpose reader as what was put in", async () => {
    const { id, messageId } = await queued();
    const mail = await simpleParser((await fetched(id)).body as Buffer);
    expect(mail).toMatchObject({ subject: "Grüße aus Alder", messageId, date: OUTBOX_NOW });
    const sender = { name: "Alder, Söhne", address: "post@holdpoint.example" };
    expect(mail.from?.value).toEqual([sender]);
    expect(mail.replyTo?.value[0]?.address).toBe("office@alder.example");
    expect(mail.text?.trim()).toBe("Text, 50 °C");
    const files = mail.attachments.filter(({ filename }) => filename);
    expect(files.map((file) => [file.filename, file.contentType, file.content])).toEqual([
      [calendar.name, "text/calendar", calendar.content],
      [scan.name, scan.contentType, scan.content],
    ]);
  });

  test("says what it waits for: quiet hours, its time, the address, a run, an answer", async () => {
    const customerId = await outbox.addCustomer("wait@rook.example");
    const { id } = await outbox.queue({ quiet: true, customerId, recipient: "Wait@rook.example" });
    const read = async () => (await outbox.office().get(`/api/v1/mails/${id}`)).body;
    expect(await read()).toMatchObject({
      waitsFor: "a-run",
      nextAttemptAt: OUTBOX_NOW.toISOString(),
    });
    const later = new Date("2026-11-25T13:30:00Z");
    await outbox.setState(id, { notBefore: later });
    expect(await read()).toMatchObject({
      waitsFor: "its-time",
      nextAttemptAt: later.toISOString(),
    });
    await outbox
      .office()
      .patch("/api/v1/mail/settings")
      .set("if-match", (await outbox.office().get("/api/v1/mail/settings")).headers.etag!)
      .send({ quietHours: { from: "13:00", to: "14:00" } });
    expect(await read()).toMatchObject({
      ...{ waitsFor: "quiet-hours", nextAttemptAt: "2026-11-25T14:00:00.000Z" },
    });
    await outbox.inOwnFirm((tx) =>
      tx.customer.updateMany({ where: { id: customerId }, data: { emailFailingAt: OUTBOX_NOW } }),
    );
    expect(await read()).toMatchObject({ waitsFor: "address", nextAttemptAt: null });
    const lease = new Date("2026-11-25T12:10:00Z");
    await outbox.setState(id, { claimedUntil: lease });
    expect(await read()).toMatchObject({ waitsFor: "answer", nextAttemptAt: lease.toISOString() });
    await outbox.setState(id, { state: "sent" });
    expect(await read()).toMatchObject({ waitsFor: null, nextAttemptAt: null });
  });

  test("is found by its kind and its customer", async () => {
    const customerId = await outbox.addCustomer("kind@rook.example");
    const { id } = await outbox.queue({ customerId, kind: "document" });
    for (const filter of [`customerId=${customerId}`, "kind=document"]) {
      const reply = await outbox.office().get(`/api/v1/mails?${filter}`);
      expect(reply.body.items.map((mail: { id: string }) => mail.id)).toEqual([id]);
    }
    expect(pointers(await outbox.office().get("/api/v1/mails?kind=letter"))).toEqual([
      "/query/kind",
    ]);
  });
});

describe("the mail settings", () => {
  const PATH = "/api/v1/mail/settings";
  const edit = async (body: object, who = outbox.office()) =>
    who
      .patch(PATH)
      .set("if-match", (await outbox.office().get(PATH)).headers.etag!)
      .send(body);

  test("have defaults, are edited against what was read, and keep what is not named", async () => {
    const theirs = outbox.service.as(outbox.birch.people.owner);
    const first = await theirs.get(PATH);
    expect(first.body).toEqual({
      ...{ senderName: null, replyTo: null, reminderHour: 10, holdBackMinutes: 5 },
      ...{ confirmation: true, change: true, cancellation: true, reminder: true },
      ...{
        quietHours: null,
        senderAddress: "post@holdpoint.example",
        mailServer: true,
        version: 1,
      },
    });
    const change = { reminderHour: 16, quietHours: { from: "21:00", to: "07:30" } };
    const edited = await theirs.patch(PATH).set("if-match", first.headers.etag!).send(change);
    expect([edited.status, edited.headers.etag]).toEqual([200, '"2"']);
    expect(edited.body).toEqual({ ...first.body, ...change, version: 2 });
    expect((await theirs.patch(PATH).set("if-match", '"1"').send(change)).status).toBe(412);
    expect((await theirs.patch(PATH).send(change)).status).toBe(428);
    const off = await theirs.patch(PATH).set("if-match", '"2"').send({ quietHours: null });
    expect(off.body).toMatchObject({ quietHours: null, reminderHour: 16 });
  });

  test.each([
    [{ reminderHour: 24 }, "/body/reminderHour"],
    [{ reminderHour: -1 }, "/body/reminderHour"],
    [{ holdBackMinutes: 121 }, "/body/holdBackMinutes"],
    [{ replyTo: "office" }, "/body/replyTo"],
    [{ quietHours: { from: "20:00", to: "20:00" } }, "/body/quietHours/to"],
    [{ quietHours: { from: "24:00", to: "08:00" } }, "/body/quietHours/from"],
    [{ senderName: "two\nlines" }, "/body/senderName"],
    [{ unknown: true }, "/body"],
  ])("are not %j", async (body, pointer) => {
    const reply = await edit(body);
    expect([reply.status, pointers(reply)]).toEqual([422, [pointer]]);
  });

  test("are read by owner, office and manager, and edited by owner and office", async () => {
    const { people } = outbox.service.firm;
    expect((await outbox.service.as(people.manager).get(PATH)).status).toBe(200);
    expect((await edit({ reminder: true }, outbox.service.as(people.manager))).status).toBe(403);
    expect((await outbox.service.as(people.installer).get(PATH)).status).toBe(403);
  });
});
