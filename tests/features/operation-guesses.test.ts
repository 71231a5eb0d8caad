// Guesses at METRICS_TOKEN are slowed by address, at all doors together. That a token is compared
// in constant time is Node's timingSafeEqual; no test here measures time.
import type supertest from "supertest";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { OPERATOR_TOKEN, operatorAt } from "../support/operator.ts";
import { words } from "../support/page-forms.ts";

const WRONG = "another token of somebody";
const MOST = 10;
const DOORS = ["/metrics", "/api/v1/operation"];
let now: Date;
let service: TestService;
beforeEach(async () => {
  now = new Date("2026-11-26T08:00:00Z");
  const environment = { METRICS_TOKEN: OPERATOR_TOKEN, TRUST_PROXY: "true" };
  service = await startService({ environment, now: () => now });
});
afterEach(() => service.stop());

const { typed, bearer } = operatorAt(() => service.anonymous);
const from = (address: string, ask: supertest.Test) => ask.set("x-forwarded-for", address);
const status = async (address: string, ask: supertest.Test) => (await from(address, ask)).status;

async function guess(times: number, ask: () => supertest.Test): Promise<void> {
  for (let count = 0; count < times; count += 1) {
    expect(await status("192.0.2.1", ask())).toBe(401);
  }
}

const everyDoor = (token: string) => [...DOORS.map((path) => bearer(path, token)), typed(token)];

describe("guessing the token", () => {
  test.each([
    ["/metrics", () => bearer("/metrics", WRONG)],
    ["/api/v1/operation", () => bearer("/api/v1/operation", WRONG)],
    ["the form", () => typed(WRONG)],
  ])("at %s shuts all doors for a minute, and only for that address", async (_name, ask) => {
    await guess(MOST, ask);
    now = new Date(now.getTime() + 20_000);
    for (const token of [WRONG, OPERATOR_TOKEN]) {
      for (const each of everyDoor(token)) {
        const reply = await from("192.0.2.1", each);
        expect([reply.status, reply.headers["retry-after"]]).toEqual([429, "40"]);
        expect(reply.headers["set-cookie"]).toBeUndefined();
      }
    }
    for (const each of everyDoor(OPERATOR_TOKEN)) {
      expect(await status("192.0.2.2", each)).toBeLessThan(400);
    }
    now = new Date(now.getTime() + 40_000);
    for (const each of everyDoor(OPERATOR_TOKEN)) {
      expect(await status("192.0.2.1", each)).toBeLessThan(400);
    }
  });

  test("counts over all doors, and is told with what to do", async () => {
    await guess(4, () => bearer("/metrics", WRONG));
    await guess(3, () => bearer("/api/v1/operation", WRONG));
    await guess(3, () => typed(WRONG));
    const { body } = await from("192.0.2.1", bearer("/api/v1/operation"));
    expect(body).toMatchObject({ type: "/problems/too-many-sign-ins", retryAfterS: 60 });
    const page = await from("192.0.2.1", typed(OPERATOR_TOKEN));
    expect(words(page.text)).toContain("From here 10 wrong tokens came within a minute.");
    const spanish = from("192.0.2.1", typed(OPERATOR_TOKEN)).set("accept-language", "es");
    expect(words((await spanish).text)).toContain("Desde aquí llegaron 10 claves erróneas");
  });

  test("slows nobody who has the token, nor who sends none", async () => {
    for (let count = 0; count < 3 * MOST; count += 1) {
      expect(await status("192.0.2.1", bearer("/metrics"))).toBe(200);
      expect(await status("192.0.2.1", service.anonymous.get("/metrics"))).toBe(401);
    }
    await guess(MOST - 1, () => bearer("/metrics", WRONG));
    expect(await status("192.0.2.1", bearer("/metrics"))).toBe(200);
  });
});
