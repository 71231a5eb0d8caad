// What whoever runs the service reads of it: who may, and the figures against what was made.
import supertest from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { backupVerdict } from "../../src/features/operation/verdicts.ts";
import { startService, type TestService } from "../support/app.ts";

const TOKEN = "a token of the test's own";
let service: TestService;
beforeAll(async () => {
  service = await startService({ environment: { METRICS_TOKEN: TOKEN } });
});
afterAll(() => service.stop());

const read = (token = TOKEN) =>
  service.anonymous.get("/api/v1/operation").set("authorization", `Bearer ${token}`);

describe("/api/v1/operation", () => {
  test("is there for whoever has the token, and for nobody where none is set", async () => {
    expect((await read()).status).toBe(200);
    expect((await read("another token of somebody")).status).toBe(401);
    expect((await service.anonymous.get("/api/v1/operation")).status).toBe(401);
    const { owner } = service.firm.people;
    expect((await service.as(owner).get("/api/v1/operation")).status).toBe(401);
    const without = await startService();
    expect((await supertest(without.app.server).get("/api/v1/operation")).status).toBe(404);
    await without.stop();
  });

  test("tells schema, mail, storage and connections, and what to do", async () => {
    const { body } = await read();
    expect(body.versions.node).toBe(process.versions.node);
    expect(body.versions.schemaFound).toBe(body.versions.schemaExpected);
    expect(body.versions.pending).toEqual([]);
    expect(body.mail).toMatchObject({ isPosted: false, mark: "watch" });
    expect(body.mail.advice).toContain("SMTP_URL");
    expect(body.storage.database.tables).toHaveLength(10);
    expect(body.storage.backup).toMatchObject({ lastAt: null, mark: "bad" });
    expect(body.connections.map(({ name }: { name: string }) => name)).toEqual([
      "prisma",
      "direct",
    ]);
    expect(body.replica).toEqual({ isSet: false, isFit: null });
  });

  test("counts a mail that waits, and holds no word of it or of a firm", async () => {
    const before = (await read()).body.mail.waiting;
    const { firmId, people } = service.firm;
    const mail = { firmId, id: firmId, recipient: "zwyx@odd.example", subject: "Quorvax" };
    const words = { textBody: "Quorvax", messageId: "<1@odd.example>" };
    await inFirm(service.db, firmId, (tx) => tx.mail.create({ data: { ...mail, ...words } }));
    const { body, text } = await read();
    expect(body.mail.waiting).toBe(before + 1);
    const hidden = [firmId, "alder", "Quorvax", "odd.example", TOKEN];
    for (const { id, email } of Object.values(people)) hidden.push(id, email);
    for (const word of hidden) expect(text.toLowerCase()).not.toContain(word.toLowerCase());
  });

  test("a backup is watched after two days and bad after a week", () => {
    const mark = (at: string) => backupVerdict(at, new Date("2030-01-10T00:00:00Z")).mark;
    expect(mark("2030-01-09T00:00:00Z")).toBe("good");
    expect(mark("2030-01-07T00:00:00Z")).toBe("watch");
    expect(mark("2030-01-02T00:00:00Z")).toBe("bad");
  });
});
