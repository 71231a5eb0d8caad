import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { queueMail } from "../../src/features/mail/store.ts";
import { mailTemplate } from "../../src/features/mail/template.ts";
import { startService, type TestService } from "../support/app.ts";
import { idsOf, nextOf, pointers } from "../support/reading.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const NOW = new Date("2026-11-25T12:00:00Z");
const queue = async (state: "waiting" | "sent" | "failed" = "waiting") => {
  const texts = { subject: "Firmware due", textBody: "Text", htmlBody: "<p>Text</p>" };
  const mail = { recipient: "office@alder.example", host: "holdpoint.example", ...texts };
  const { firmId } = service.firm;
  return inFirm(service.db, firmId, async (tx) => {
    const { id } = await queueMail(tx, mail, NOW);
    await tx.mail.updateMany({ where: { id }, data: { state } });
    return id;
  });
};
const office = () => service.as(service.firm.people.office);

describe("the outbox", () => {
  test("is listed a page at a time, and by state", async () => {
    const ids = [await queue("sent"), await queue("failed"), await queue()];
    const first = await office().get("/api/v1/mails?limit=2");
    expect(idsOf(first)).toEqual(ids.slice(0, 2));
    expect(idsOf(await office().get(nextOf(first)))).toEqual(ids.slice(2));
    expect(idsOf(await office().get("/api/v1/mails?state=failed"))).toEqual([ids[1]]);
    const bad = await office().get("/api/v1/mails?state=lost");
    expect([bad.status, pointers(bad)]).toEqual([422, ["/query/state"]]);
  });

  test("is for owner, office and manager, and only of their own firm", async () => {
    const id = await queue("failed");
    const { people } = service.firm;
    for (const role of ["owner", "manager"] as const) {
      expect((await service.as(people[role]).get("/api/v1/mails")).status).toBe(200);
    }
    for (const role of ["installer", "auditor"] as const) {
      expect((await service.as(people[role]).get("/api/v1/mails")).status).toBe(403);
    }
    expect((await service.as(people.manager).post(`/api/v1/mails/${id}/resend`)).status).toBe(403);
    const theirs = service.as((await service.addFirm("birch")).people.office);
    expect(idsOf(await theirs.get("/api/v1/mails"))).toEqual([]);
    expect((await theirs.post(`/api/v1/mails/${id}/resend`)).status).toBe(404);
  });

  test("lets a failed mail begin anew, and no other", async () => {
    const [failed, sent, waiting] = [await queue("failed"), await queue("sent"), await queue()];
    const resend = (id: string) => office().post(`/api/v1/mails/${id}/resend`);
    const done = await resend(failed);
    expect(done.body).toMatchObject({ id: failed, state: "waiting", attempts: 0, lastError: null });
    for (const id of [sent, waiting]) {
      const refused = await resend(id);
      expect([refused.status, refused.body.type]).toEqual([409, "/problems/conflict"]);
    }
  });
});

test("a mail's template refuses data that lacks a name it uses", () => {
  expect(() => mailTemplate("firmware-notice")({ firm: "Alder" })).toThrow();
});
