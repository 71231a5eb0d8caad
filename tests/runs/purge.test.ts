import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readConfig } from "../../src/config.ts";
import { inFirm } from "../../src/db/scope.ts";
import { purge } from "../../src/runs/purge.ts";
import { startService, type TestService } from "../support/app.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const config = readConfig({}, ".data/tests");
const NOW = new Date("2026-11-25T03:17:00Z");
const ago = (ms: number) => new Date(NOW.getTime() - ms);
const DAY_MS = 24 * 3_600_000;

test("what is over goes, however much it is, and what is not over stays", async () => {
  const { firmId, people } = service.firm;
  const personId = people.office.id;
  const reply = (key: string, createdAt: Date) => ({
    ...{ firmId, personId, key, createdAt },
    ...{ operation: "POST /", bodySha256: "" },
  });
  const session = (expiresAt: Date) => ({
    firmId,
    id: uuidv7(),
    personId,
    secretHash: "",
    expiresAt,
  });
  const lasting = session(new Date(NOW.getTime() + 1));
  await inFirm(service.db, firmId, async (tx) => {
    await tx.session.deleteMany({});
    const old = Array.from({ length: 2500 }, (_value, index) =>
      reply(`old-${index}`, ago(7 * DAY_MS + 1)),
    );
    await tx.idempotencyKey.createMany({ data: [...old, reply("kept", ago(7 * DAY_MS))] });
    await tx.session.createMany({ data: [session(ago(1)), lasting] });
  });
  const other = await service.addFirm("birch");
  const throttle = (key: string, windowStart: Date) => ({ key, failures: 1, windowStart });
  await service.db.prisma.signInThrottle.createMany({
    data: [throttle("old", ago(DAY_MS + 1)), throttle("kept", ago(DAY_MS))],
  });
  expect(await purge(service.db, config, NOW)).toBe(2500 + 1 + 1);
  const left = await inFirm(service.db, firmId, async (tx) => [
    (await tx.idempotencyKey.findMany({})).map(({ key }) => key),
    (await tx.session.findMany({})).map(({ id }) => id),
  ]);
  expect(left).toEqual([["kept"], [lasting.id]]);
  const throttles = await service.db.prisma.signInThrottle.findMany({});
  expect(throttles.map(({ key }) => key)).toEqual(["kept"]);
  expect(await purge(service.db, config, NOW)).toBe(0);
  const theirSessions = await inFirm(service.db, other.firmId, (tx) => tx.session.count());
  expect(theirSessions).toBe(5);
});
