// Every read operation of the interface that an auditor may ask leaves a look, on a job's ledger
// or in the firm's list; what leaves none is named with its reason. Routes join by themselves.
import { parse } from "csv-parse/sync";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ACCESS } from "../../src/access.ts";
import { NEEDS_NONE } from "../../src/features/audit-looks/what.ts";
import { type Api, describedApi } from "../support/api-operations.ts";
import { type AuditStage, auditStage } from "../support/audit-stage.ts";
import { askedOf } from "../support/foreign-asks.ts";
import { knownIds } from "../support/known-ids.ts";
import { pagePaths } from "../support/page-paths.ts";

const NOW = new Date();
let stage: AuditStage;
let api: Api;
let known: Map<string, string[]>;
beforeAll(async () => {
  stage = await auditStage(() => NOW);
  api = describedApi(stage.app);
  known = (
    await knownIds(api, async (url) => {
      const reply = await stage.get(url, "owner");
      return reply.status === 200 ? reply.body : undefined;
    })
  ).values;
}, 120_000);
afterAll(() => stage.end());

const looksAt = (path: string) =>
  stage.rows("SELECT operation, subject_id FROM audit_look WHERE path = $1", [path]);
const viewsOf = async (jobId: string) =>
  (
    await stage.rows("SELECT seq FROM ledger_entry WHERE job_id = $1 AND kind = 'record.viewed'", [
      jobId,
    ])
  ).length;
const VIEWS = "SELECT count(*) AS n FROM ledger_entry WHERE kind = 'record.viewed'";
const allViews = async () => Number((await stage.rows(VIEWS))[0]?.n);

test("each read leaves one, or needs none for a told reason", {
  timeout: 120_000,
}, async () => {
  const kept: string[] = [];
  const missing: string[] = [];
  for (const operation of api.operations) {
    const rule = ACCESS[operation.id];
    if (operation.method !== "get" || !(rule === "everyone" || rule?.includes("auditor"))) continue;
    const asked = askedOf({ api, known }, operation);
    if (!asked) continue;
    // A stream that fails under way is cut, which is no answer.
    const reply = await stage.get(asked.url).catch(() => ({ status: 599 }));
    if (reply.status !== 200) continue;
    const path = asked.url.split("?")[0] ?? "";
    const looks = await looksAt(path);
    if (NEEDS_NONE[operation.id]) expect(looks, operation.id).toEqual([]);
    else if (looks.length === 1) kept.push(operation.id);
    else if (path.includes("/jobs/") && (await viewsOf(path.split("/")[4] ?? "")) === 1) continue;
    else if (/snags|visits|nonconformances/.test(path) && (await allViews()) > 0) continue;
    else missing.push(`${operation.id} ${path}`);
  }
  expect(missing).toEqual([]);
  expect(kept.length).toBeGreaterThan(60);
  expect(kept).toEqual(expect.arrayContaining(["exportJobs", "readSite", "readUnit", "search"]));
});

test("so does each page", async () => {
  const missing: string[] = [];
  let kept = 0;
  for (const path of pagePaths()) {
    const noun = /^\/([a-z-]+)\//.exec(path)?.[1] ?? "";
    const url = path.replace(/:id\b/, known.get(`${noun} id`)?.[0] ?? ":id");
    const isOwn = /^\/(account|notices|sign-in|start|check|assets|docs)/.test(url);
    if (url.includes(":") || isOwn || url.startsWith("/tablet")) continue;
    if ((await stage.get(url)).status !== 200) continue;
    if (/^\/(jobs|snags|nonconformances)\/./.test(url)) continue;
    if ((await looksAt(url)).length === 1) kept += 1;
    else missing.push(url);
  }
  expect(missing).toEqual([]);
  expect(kept).toBeGreaterThan(30);
});

describe("a look", () => {
  test("is kept once a day, and of nobody else's reading", async () => {
    await stage.get("/api/v1/crews");
    await stage.get("/api/v1/crews?limit=5");
    expect(await looksAt("/api/v1/crews")).toHaveLength(1);
    const before = await stage.rows("SELECT count(*) AS n FROM audit_look");
    for (const role of ["owner", "office", "installer", "manager"] as const) {
      await stage.get("/api/v1/working-hours?x=1", role);
      await stage.get("/sites", role);
    }
    expect(await stage.rows("SELECT count(*) AS n FROM audit_look")).toEqual(before);
  });

  test("is not left by what was refused or is not there", async () => {
    const path = "/api/v1/sites/019ac000-0000-7000-8000-000000000000";
    expect((await stage.get(path)).status).toBe(404);
    expect(await looksAt(path)).toEqual([]);
    expect((await stage.get("/api/v1/mails")).status).toBe(403);
    expect(await looksAt("/api/v1/mails")).toEqual([]);
  });

  test("stays as it was written", async () => {
    for (const sql of ["UPDATE audit_look SET path = '/'", "DELETE FROM audit_look"]) {
      await expect(stage.rows(sql), sql).rejects.toThrow("kept as they were written");
    }
  });

  test("is told to owner and manager, by person and day, with what it was", async () => {
    expect((await stage.get("/api/v1/audit-looks", "auditor")).status).toBe(403);
    const day = NOW.toISOString().slice(0, 10);
    const url = `/api/v1/audit-looks?limit=200&personId=${stage.auditorId}&day=${day}`;
    const { items } = JSON.parse((await stage.get(url, "manager")).body);
    expect(items.length).toBeGreaterThan(60);
    const sites = items.filter((look: { operation: string }) => look.operation === "readSite");
    expect(sites[0].subjectName).toMatch(/^S-/);
    const none = await stage.get("/api/v1/audit-looks?day=2020-01-01", "owner");
    expect(JSON.parse(none.body).items).toEqual([]);
    const page = await stage.get("/audit-looks", "owner");
    expect(page.status).toBe(200);
    const plain = items.find(({ path }: { path: string }) => !path.includes("?"));
    expect(items.indexOf(plain)).toBeLessThan(20);
    expect(page.body).toContain(`href="${plain.path}"`);
  });

  test("goes out as CSV with the same filters, on record, with no formula in it", async () => {
    await stage.rows(
      `INSERT INTO audit_look (firm_id, id, person_id, day, path, operation, subject_id, at)
       SELECT $1, gen_random_uuid(), $2, '2019-05-01', '=1+1', 'readSite', id, '2019-05-01T08:00Z'
       FROM site WHERE firm_id = $1 ORDER BY reference LIMIT 1`,
      [stage.demo.firmId, stage.auditorId],
    );
    const url = "/api/v1/exports/audit-looks.csv";
    expect((await stage.get(url, "auditor")).status).toBe(403);
    const all = parse((await stage.get(url, "manager")).body, { columns: true, bom: true });
    const [count] = await stage.rows("SELECT count(*) AS n FROM audit_look");
    expect(String(all.length)).toBe(count?.n);
    const one = await stage.get(`${url}?day=2019-05-01&personId=${stage.auditorId}`, "owner");
    expect(parse(one.body, { columns: true, bom: true })).toEqual([
      {
        ...{ day: "2019-05-01", at: "2019-05-01T08:00:00.000Z", person: "Casimir Holtby" },
        ...{ subject: expect.stringMatching(/^S-/), path: "'=1+1", operation: "readSite" },
      },
    ]);
    const { items } = JSON.parse((await stage.get("/api/v1/exports?limit=1", "owner")).body);
    expect(items).toMatchObject([{ list: "audit-looks", rows: 1, filter: { day: "2019-05-01" } }]);
    const page = await stage.get("/audit-looks?day=2019-05-01", "owner");
    expect(page.body).toMatch(
      /audit-looks\.csv\?day(=|&#x3D;)2019-05-01(&amp;sort(=|&#x3D;)-when)?" download/,
    );
  });
});
