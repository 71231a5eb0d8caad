// The database gone while somebody looks how the service stands: what is known without it is told,
// and the log is told once.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { pino } from "pino";
import supertest from "supertest";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { buildApp } from "../../src/app.ts";
import { readConfig } from "../../src/config.ts";
import { connect, type Database } from "../../src/db/client.ts";
import { inFirm } from "../../src/db/scope.ts";
import type { App } from "../../src/web/feature.ts";
import { startService, type TestService } from "../support/app.ts";
import { whileAway } from "../support/database-away.ts";
import { OPERATOR_TOKEN, operatorAt } from "../support/operator.ts";
import { words } from "../support/page-forms.ts";

const REASON = { check: "database", detail: "The database does not answer." };
const folder = mkdtempSync(join(tmpdir(), "holdpoint-away-"));
let service: TestService;
let db: Database;
let app: App;
let isRunning = true;
const lines: string[] = [];
const queries: string[] = [];

beforeAll(async () => {
  service = await startService();
  const tell = ({ text }: { text: string }) => void queries.push(text);
  db = connect({ url: service.appUrl, poolSize: 4, slowQueries: { leastMs: 0, tell } });
  const environment = { METRICS_TOKEN: OPERATOR_TOKEN, DATA_DIR: folder };
  app = await buildApp({
    ...{ db, jwtSecret: "a secret of forty characters for the tests" },
    config: readConfig(environment, folder),
    logger: pino({ level: "info" }, { write: (line: string) => void lines.push(line) }),
    queue: { isRunning: () => isRunning },
  });
  await app.ready();
});
beforeEach(() => {
  lines.length = 0;
  queries.length = 0;
});
afterAll(async () => {
  await app.close();
  await db.close();
  await service.stop();
  rmSync(folder, { recursive: true });
});

async function asOwner(sql: string): Promise<void> {
  const client = new pg.Client({ connectionString: service.ownerUrl });
  await client.connect();
  await client.query(sql).finally(() => client.end());
}

const { page, bearer, opened } = operatorAt(() => supertest(app.server));
const probe = async () => (await supertest(app.server).get("/health/ready")).status;
const told = () =>
  lines
    .map((line) => JSON.parse(line) as { level: number; msg: string; reasons?: unknown })
    .filter(({ level, msg }) => level >= 40 || msg.includes("ready"))
    .map(({ level, msg, reasons }) => ({ level, msg, reasons }));
const times = (text: string) => queries.filter((query) => query.includes(text)).length;

describe("while the database is away", () => {
  test("the page and the interface tell what is known without it", async () => {
    const cookie = await opened();
    const { versions } = (await bearer("/api/v1/operation")).body;
    await whileAway(service.ownerUrl, async () => {
      const { status, headers, body } = await bearer("/api/v1/operation");
      expect([status, headers["retry-after"]]).toEqual([503, "5"]);
      expect(body).toMatchObject({
        ...{ type: "/problems/busy", detail: REASON.detail },
        ready: { isReady: false, reasons: [REASON] },
        versions: { service: versions.service, node: process.versions.node },
        storage: { backup: { mark: "bad" } },
      });
      expect(body.connections.map(({ limit }: { limit: number }) => limit)).toEqual([2, 2]);
      const shown = await page(cookie);
      expect([shown.status, shown.headers["retry-after"]]).toEqual([503, "5"]);
      const text = words(shown.text);
      expect(text).toContain("✗ The service cannot do its work.");
      expect(text).toContain(`Database : ${REASON.detail}`);
      expect(text).toContain("What the database tells cannot be read; the rest is shown.");
      expect(text).toContain(`Node.js ${process.versions.node}`);
      // A person of a firm who is signed in beside it takes nothing away.
      const { owner } = service.firm.people;
      const both = await page(`${cookie}; __Host-access=${owner.token}`);
      expect(words(both.text)).toContain(`Database : ${REASON.detail}`);
      // The token is asked for all the same, and the form works.
      expect((await bearer("/api/v1/operation", "another token")).status).toBe(401);
      expect((await page(await opened())).status).toBe(503);
    });
    expect((await page(cookie)).status).toBe(200);
    expect((await bearer("/api/v1/operation")).status).toBe(200);
  });

  test("the log is told once, and once when it is back, however often it is probed", async () => {
    expect(await probe()).toBe(200);
    expect(told()).toEqual([]);
    await whileAway(service.ownerUrl, async () => {
      expect([await probe(), await probe(), await probe()]).toEqual([503, 503, 503]);
      await bearer("/api/v1/operation");
      expect(told()).toEqual([{ level: 50, msg: "not ready", reasons: [REASON] }]);
    });
    expect([await probe(), await probe()]).toEqual([200, 200]);
    expect(told()).toEqual([
      { level: 50, msg: "not ready", reasons: [REASON] },
      { level: 30, msg: "ready again", reasons: undefined },
    ]);
  });

  test("a reason that comes to another is told", async () => {
    isRunning = false;
    expect([await probe(), await probe()]).toEqual([503, 503]);
    await whileAway(service.ownerUrl, async () => {
      expect([await probe(), await probe()]).toEqual([503, 503]);
    });
    isRunning = true;
    expect(await probe()).toBe(200);
    const checks = told().map(({ reasons }) =>
      (reasons as { check: string }[] | undefined)?.map(({ check }) => check),
    );
    expect(checks).toEqual([["queue"], ["database", "queue"], undefined]);
  });
});

describe("the figures", () => {
  test("take one look at each firm and one at the schema, and find the last mail", async () => {
    const birch = await service.addFirm("birch");
    const sentAt = ["2026-11-01T08:00:00.000Z", "2026-11-03T08:00:00.000Z"];
    for (const [index, { firmId }] of [birch, service.firm].entries()) {
      const mail = { firmId, id: firmId, recipient: "zwyx@odd.example", subject: "Quorvax" };
      const words = { textBody: "Quorvax", messageId: `<${index}@odd.example>` };
      const sent = { state: "sent", sentAt: sentAt[index]! };
      await inFirm(service.db, firmId, (tx) =>
        tx.mail.create({ data: { ...mail, ...words, ...sent } }),
      );
    }
    await bearer("/api/v1/operation");
    queries.length = 0;
    const { body } = await bearer("/api/v1/operation");
    expect(body.mail.lastSentAt).toBe(sentAt[1]);
    expect(times("set_config('app.firm_id'")).toBe(2);
    expect(times("FROM _prisma_migrations")).toBe(1);
  });

  test("that cannot be read although the database answers are told of as such", async () => {
    const cookie = await opened();
    await asOwner("REVOKE SELECT ON mail FROM holdpoint_app");
    try {
      const { status, body } = await bearer("/api/v1/operation");
      expect([status, body.ready.isReady]).toEqual([503, true]);
      expect(body.detail).toContain("the log says why");
      expect((await page(cookie)).status).toBe(503);
      expect(told().map(({ msg }) => msg)).toEqual(["standing not read", "standing not read"]);
    } finally {
      await asOwner("GRANT SELECT ON mail TO holdpoint_app");
    }
    expect((await page(cookie)).status).toBe(200);
  });
});
