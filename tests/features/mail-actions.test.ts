// What can be done with a mail in the outbox, and by whom.
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { OUTBOX_NOW, type Outbox, startOutbox } from "../support/outbox.ts";
import { type MailServer, sendAt, startMailServer } from "../support/smtp.ts";

let outbox: Outbox;
let server: MailServer;
beforeAll(async () => {
  outbox = await startOutbox();
  server = await startMailServer();
});
afterAll(async () => {
  await server.stop();
  await outbox.service.stop();
});
beforeEach(async () => {
  server.received.length = 0;
  await outbox.inOwnFirm((tx) =>
    tx.mail.updateMany({ where: { state: "waiting" }, data: { state: "held" } }),
  );
});

const act = (id: string, action: string, who = outbox.office()) =>
  who.post(`/api/v1/mails/${id}/${action}`);

describe("an action on a mail", () => {
  const STATES = ["waiting", "held", "sent", "failed", "returned", "cancelled"] as const;
  const BECOMES: Record<string, Partial<Record<(typeof STATES)[number], string>>> = {
    resend: { failed: "waiting", returned: "waiting", cancelled: "waiting" },
    attempt: { waiting: "waiting" },
    hold: { waiting: "held" },
    release: { held: "waiting" },
    cancellation: { waiting: "cancelled", held: "cancelled", failed: "cancelled" },
    "sent-by-hand": { waiting: "sent", held: "sent", failed: "sent" },
  };
  test.each(Object.keys(BECOMES))(
    "%s is done from its states and refused from others",
    async (action) => {
      for (const state of STATES) {
        const { id } = await outbox.queue();
        await outbox.setState(id, { state });
        const reply = await act(id, action);
        const becomes = BECOMES[action]![state];
        expect([state, reply.status, reply.body.state]).toEqual(
          becomes ? [state, 201, becomes] : [state, 409, undefined],
        );
        if (!becomes) expect(reply.body.detail).toContain(state);
      }
    },
  );

  test("is refused while an attempt is under way, by whatever instance", async () => {
    const { id } = await outbox.queue();
    await outbox.setState(id, { claimedUntil: new Date(OUTBOX_NOW.getTime() + 1) });
    for (const action of ["attempt", "hold", "cancellation", "sent-by-hand"]) {
      const reply = await act(id, action);
      expect([reply.status, reply.body.detail]).toEqual([
        409,
        "The mail is being sent at this moment. Look again in a while.",
      ]);
    }
    await outbox.setState(id, { claimedUntil: OUTBOX_NOW });
    expect((await act(id, "hold")).status).toBe(201);
  });

  test("is for owner and office, and for mails of the own firm", async () => {
    const { id } = await outbox.queue();
    for (const role of ["manager", "installer", "auditor"] as const) {
      expect(
        (await act(id, "hold", outbox.service.as(outbox.service.firm.people[role]))).status,
      ).toBe(403);
    }
    for (const action of Object.keys(BECOMES)) {
      expect((await act(id, action, outbox.theirOffice())).status).toBe(404);
    }
    const theirs = outbox.theirOffice();
    expect((await theirs.get(`/api/v1/mails/${id}`)).status).toBe(404);
    expect((await theirs.get(`/api/v1/mails/${id}/message`)).status).toBe(404);
  });

  test("done twice under one Idempotency-Key is done once", async () => {
    const { id } = await outbox.queue();
    const key = `"${uuidv7()}"`.replaceAll('"', "");
    const once = () => act(id, "hold").set("idempotency-key", key);
    const [first, second] = [await once(), await once()];
    expect([first.status, second.status]).toEqual([201, 201]);
    expect(second.headers["idempotency-replayed"]).toBe("true");
  });

  test("held: it does not leave; released: it does, once", async () => {
    const { id, messageId } = await outbox.queue();
    await act(id, "hold");
    const send = () => sendAt(outbox.service.db, { SMTP_URL: server.url }, OUTBOX_NOW);
    expect(await send()).toMatchObject({ sent: 0 });
    await act(id, "release");
    expect(await send()).toMatchObject({ sent: 1 });
    expect(server.received.map((mail) => mail.messageId)).toEqual([messageId]);
  });

  test("try now: a mail put off for later is tried at the next run", async () => {
    const { id } = await outbox.queue({ notBefore: new Date(OUTBOX_NOW.getTime() + 3_600_000) });
    const send = () => sendAt(outbox.service.db, { SMTP_URL: server.url }, OUTBOX_NOW);
    expect(await send()).toMatchObject({ sent: 0 });
    const reply = await act(id, "attempt");
    expect(reply.body).toMatchObject({
      waitsFor: "a-run",
      nextAttemptAt: OUTBOX_NOW.toISOString(),
    });
    expect(await send()).toMatchObject({ sent: 1 });
  });
});

test("a mail written twice under one key is written once (queueMail onceKey)", async () => {
  const [one, two] = [
    await outbox.queue({ onceKey: "a" }),
    await outbox.queue({ onceKey: "a", subject: "b" }),
  ];
  expect([two.id, two.subject]).toEqual([one.id, one.subject]);
});
