// More comes in than the database takes: what cannot be answered soon is refused at once with when
// to come again, and once it is over everything is answered as before.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service?.stop());

/** Asks for so much at once that some of it waits for every connection there is. */
const crowd = () =>
  Promise.all(Array.from({ length: 160 }, () => service.db.pool.query("SELECT pg_sleep(0.05)")));

describe("a service with more before it than it can do", () => {
  test("says busy and when to come again, to pages and tablets alike; then goes on", async () => {
    const { installer, office } = service.firm.people;
    const crowded = crowd();
    const sent = service.as(installer).post("/api/v1/tablet/ops").send({});
    const replies = await Promise.all([
      service.as(office).get("/api/v1/jobs"),
      service.as(office).get("/today").set("accept", "text/html"),
      sent,
      service.anonymous.get("/sign-in").set("accept", "text/html"),
    ]);
    expect(replies.map(({ status }) => status)).toEqual([503, 503, 503, 503]);
    for (const { headers } of replies) expect(headers["retry-after"]).toBe("5");
    expect(replies[0]?.body.detail).toMatch(/Nothing was lost/);
    expect((await service.anonymous.get("/health/live")).status).toBe(200);
    await crowded;
    expect((await service.as(office).get("/api/v1/jobs")).status).toBe(200);
  });
});
