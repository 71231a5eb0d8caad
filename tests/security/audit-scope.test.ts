// An auditor held to part of the firm asks for everything: every read operation of the interface
// with what lies outside, every list and table to take away, every page. What lies outside is found
// behind the scenes; no answer may hold any of it. Routes join by themselves.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ACCESS } from "../../src/access.ts";
import type { NewAccess } from "../../src/features/audit-access/schemas.ts";
import { type Api, describedApi, nounBefore, type Operation } from "../support/api-operations.ts";
import { insideOf } from "../support/audit-inside.ts";
import { leaks, type Outside, outsideOf } from "../support/audit-outside.ts";
import { type AuditStage, auditStage } from "../support/audit-stage.ts";
import { askedOf } from "../support/foreign-asks.ts";
import { guidsIn, knownIds } from "../support/known-ids.ts";
import { pagePaths } from "../support/page-paths.ts";

let stage: AuditStage;
let api: Api;
let all: Map<string, string[]>;
beforeAll(async () => {
  stage = await auditStage();
  api = describedApi(stage.app);
  const known = await knownIds(api, async (url) => {
    const reply = await stage.get(url, "owner");
    return reply.status === 200 ? reply.body : undefined;
  });
  all = known.values;
  const jobs = await stage.rows("SELECT job_id, sha256 FROM photo LIMIT 1");
  all.set("photos sha256", [jobs[0]?.sha256 ?? ""]);
}, 120_000);
afterAll(() => stage.end());

async function scopesToTry(): Promise<Record<string, NewAccess["scope"]>> {
  const closed = await stage.rows(
    `SELECT j.site_id, c.closed_at::date::text AS day, u.model_id FROM job j
     JOIN close_out c ON c.id = j.close_out_id JOIN job_unit k ON k.job_id = j.id
     JOIN unit u ON u.id = k.unit_id WHERE j.firm_id = $1 ORDER BY c.closed_at`,
    [stage.demo.firmId],
  );
  const day = closed[0]?.day ?? "";
  return {
    sites: { siteIds: [closed[0]?.site_id ?? ""] },
    period: { period: { from: day, to: day } },
    model: { modelIds: [closed[0]?.model_id ?? ""] },
  };
}

const mayRead = ({ id, method }: Operation): boolean => {
  const rule = ACCESS[id];
  return method === "get" && (rule === "everyone" || !!rule?.includes("auditor"));
};

describe.each(["sites", "period", "model"])("an auditor held to part of the firm by %s", (kind) => {
  let outside: Outside;
  beforeAll(async () => {
    const scope = (await scopesToTry())[kind] ?? {};
    outside = await outsideOf(stage, scope);
    await stage.give(scope);
    expect(outside.ids.size).toBeGreaterThan(20);
  });
  const valuesOutside = () =>
    new Map(
      [...all].map(([key, values]): [string, string[]] => {
        const out = values.filter((value) => outside.ids.has(value));
        return [key, out.length > 0 ? out : values];
      }),
    );

  test("finds nothing of it at any address of the interface", { timeout: 120_000 }, async () => {
    const faults: string[] = [];
    const refused: string[] = [];
    const known = valuesOutside();
    known.set("packets jobId", known.get("jobs id") ?? []);
    for (const operation of api.operations.filter(mayRead)) {
      const asked = askedOf({ api, known }, operation);
      if (!asked) continue;
      const reply = await stage.get(asked.url);
      const what = `${operation.id} ${asked.url}`;
      const path = asked.url.split("?")[0] ?? "";
      const named = guidsIn(path).filter((id) => outside.ids.has(id));
      if (named.length > 0 && reply.status !== 404) faults.push(`${what}: ${reply.status}`);
      if (named.length > 0) refused.push(nounBefore(operation.path, "id"));
      if (reply.status >= 500) faults.push(`${what}: ${reply.status} ${reply.body}`);
      for (const leak of leaks(outside, reply, asked.url)) faults.push(`${what} tells ${leak}`);
    }
    expect(faults).toEqual([]);
    expect(refused).toEqual(expect.arrayContaining(["jobs", "sites", "units", "customers"]));
  });

  test("reads lists and tables to take away that hold only the scope", async () => {
    const faults: string[] = [];
    let rows = 0;
    for (const { id, path, parameters } of api.operations.filter(mayRead)) {
      if (parameters.some((one) => one.in === "path")) continue;
      const reply = await stage.get(path);
      if (reply.status >= 500) faults.push(`${id}: ${reply.status}`);
      if (path.endsWith(".csv") && reply.status === 200) rows += reply.body.split("\n").length;
      for (const leak of leaks(outside, reply)) faults.push(`${id} tells ${leak}`);
    }
    expect(faults).toEqual([]);
    expect(rows).toBeGreaterThan(20);
  });

  test("sees nothing of it on any page", { timeout: 120_000 }, async () => {
    const faults: string[] = [];
    const known = valuesOutside();
    const paths = pagePaths();
    expect(paths.length).toBeGreaterThan(60);
    for (const path of paths) {
      const noun = /^\/([a-z-]+)\//.exec(path)?.[1] ?? "";
      const id = known.get(`${noun} id`)?.[0];
      if (path.includes(":") && id === undefined) continue;
      const url = path.replace(/:id\b/, id ?? "");
      if (url.includes(":")) continue;
      const reply = await stage.get(url);
      if (reply.status >= 500) faults.push(`${url}: ${reply.status}`);
      if (id && outside.ids.has(id) && reply.status === 200) faults.push(`${url} is shown`);
      for (const leak of leaks(outside, reply, url)) faults.push(`${url} tells ${leak}`);
    }
    expect(faults).toEqual([]);
  });

  test("counts only what lies inside", async () => {
    const inside = await insideOf(stage, (await scopesToTry())[kind] ?? {});
    const items = async (url: string) => JSON.parse((await stage.get(url)).body).items.length;
    expect(await items("/api/v1/jobs?limit=200")).toBe(inside.job_id.size);
    expect(await items("/api/v1/sites?limit=200")).toBe(inside.site_id.size);
    const rows = (await stage.get("/api/v1/exports/jobs.csv")).body.trim().split("\r\n");
    expect(rows.length - 1).toBe(inside.job_id.size);
  });

  test("can open no finding on it, and learns nothing by trying", async () => {
    const open = async (jobId: string) => {
      const reply = await stage.app.inject({
        ...{ method: "POST", url: "/api/v1/nonconformances" },
        headers: { authorization: `Bearer ${stage.tokens.auditor}` },
        payload: { kind: "audit", title: "Something is missing", jobId },
      });
      return { status: reply.statusCode, detail: reply.json().detail };
    };
    const [job = ""] = (all.get("jobs id") ?? []).filter((id) => outside.ids.has(id));
    const guessed = await open("019ac000-0000-7000-8000-000000000000");
    expect(await open(job)).toEqual(guessed);
    expect(guessed.status).toBe(422);
    const own = JSON.parse((await stage.get("/api/v1/jobs")).body).items[0].id;
    expect((await open(own)).status).toBe(201);
  });
});

test("whoever is more than an auditor is held to nothing", async () => {
  await stage.give({ siteIds: (await scopesToTry()).sites?.siteIds ?? [] });
  const sites = JSON.parse((await stage.get("/api/v1/sites?limit=200", "manager")).body).items;
  const [{ n } = { n: "" }] = await stage.rows(
    "SELECT count(*)::int AS n FROM site WHERE firm_id = $1 AND archived_at IS NULL",
    [stage.demo.firmId],
  );
  expect(sites.length).toBe(n);
});
