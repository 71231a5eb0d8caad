import pg from "pg";
import { afterAll, beforeAll, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob } from "../support/practice-job.ts";
import { outcomes, sendOps, testTablet } from "../support/tablet-ops.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
});
afterAll(() => service.stop());

test("operations are put off, not held, while no database connection is free", async () => {
  const job = await addPracticeJob(service);
  const tablet = testTablet(job.jobId, service.firm.people.installer.id);
  const op = tablet.answer(job.answers()[0]!);
  const ownPool = service.db.pool;
  const small = new pg.Pool({
    connectionString: service.appUrl,
    max: 1,
    connectionTimeoutMillis: 500,
  });
  const taken = await small.connect();
  service.db.pool = small;
  try {
    const reply = await sendOps(service, [op]);
    expect([reply.status, reply.body.type]).toEqual([503, "/problems/busy"]);
    expect(Number(reply.headers["retry-after"])).toBeGreaterThan(0);
    taken.release();
    expect(outcomes(await sendOps(service, [op]))).toEqual(["stored"]);
  } finally {
    service.db.pool = ownPool;
    await small.end();
  }
});

test("operations are put off while the database is gone, and stored once it is back", async () => {
  const job = await addPracticeJob(service);
  const tablet = testTablet(job.jobId, service.firm.people.installer.id);
  const op = tablet.answer(job.answers()[0]!);
  const ownPool = service.db.pool;
  const broken = new pg.Pool({ connectionString: service.appUrl });
  broken.on("connect", (client) => {
    client.query("SELECT pg_terminate_backend(pg_backend_pid())").catch(() => undefined);
  });
  broken.on("error", () => undefined);
  service.db.pool = broken;
  try {
    const reply = await sendOps(service, [op]);
    expect([reply.status, reply.body.type]).toEqual([503, "/problems/busy"]);
  } finally {
    service.db.pool = ownPool;
    await broken.end();
  }
  expect(outcomes(await sendOps(service, [op]))).toEqual(["stored"]);
});
