// Figures: United Kingdom PAS 63100:2024 6.5, 1 m from openings outdoors (seen in a secondary
// page); United States IRC 2021 R328.4, 3 ft, printed as 914 mm and 914.4 mm exactly.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";
import { addSite } from "../support/stock.ts";
import { packBody, putSurvey, savedSurvey, surveyBody } from "../support/survey-rows.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const installer = () => service.as(service.firm.people.installer);

async function surveyedSite(body: object, fields: object = {}) {
  const site = await addSite(service, fields);
  await savedSurvey(service, site.id, body);
  return site;
}
const siting = (site: { id: string }, query = "") =>
  installer().get(`/api/v1/sites/${site.id}/siting${query}`);

interface Found {
  ruleId: string;
  verdict: string;
}
const findingOf = (reply: { body: { findings: Found[] } }, ruleId: string) =>
  reply.body.findings.find((finding) => finding.ruleId === ruleId);

describe("the judgement of a site's survey", () => {
  test.each([
    [999, "breaks", -1],
    [1000, "meets", 0],
    [1001, "meets", 1],
  ])("PAS 63100:2024 6.5 asks for 1 m outdoors: %d mm %s", async (gapMm, verdict, margin) => {
    const reply = await siting(await surveyedSite(surveyBody(gapMm)));
    expect(reply.status).toBe(200);
    expect(findingOf(reply, "uk-outdoor-openings")).toMatchObject({
      verdict,
      measured: gapMm,
      required: 1000,
      margin,
      unit: "mm",
      source: "PAS 63100 6.5",
      edition: "2024",
      certainty: "seen in a secondary page",
      between: ["pack", "window"],
    });
    expect(reply.body.rulePack).toMatchObject({ id: "uk-2026", version: null });
    expect(reply.body.surveyVersion).toBe(1);
    expect(reply.body.caution).toContain("Guidance, not a certificate");
  });

  test.each([
    [914, "breaks"],
    [914.4, "meets"],
  ])("IRC 2021 R328.4 asks for 3 ft, which is 914.4 mm: %d mm %s", async (gapMm, verdict) => {
    const body = surveyBody(gapMm, { region: "us" });
    const site = await surveyedSite(body, { country: "US", region: "us" });
    expect(findingOf(await siting(site), "us-openings")).toMatchObject({ verdict });
  });

  test("comes worst first, and its counts add up to all findings", async () => {
    const reply = await siting(await surveyedSite(surveyBody(999)));
    expect(reply.body.findings[0].verdict).toBe("breaks");
    const counts = Object.values<number>(reply.body.summary.counts);
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(reply.body.findingCount);
    expect(reply.body.findings).toHaveLength(reply.body.findingCount);
  });

  test("follows the survey's version: an old one is judged as it was", async () => {
    const site = await surveyedSite(surveyBody(999));
    await putSurvey(service, site.id, surveyBody(1000), 1);
    const now = await siting(site);
    expect(findingOf(now, "uk-outdoor-openings")?.verdict).toBe("meets");
    const then = await siting(site, "?surveyVersion=1");
    expect(findingOf(then, "uk-outdoor-openings")?.verdict).toBe("breaks");
    expect((await siting(site, "?surveyVersion=3")).status).toBe(404);
  });
});

describe("the rule pack", () => {
  test.each([
    ["uk", "GB", "uk-2026"],
    ["wessex", "GB", "uk-2026"],
    ["us", "US", "us-2026"],
    ["otago", "NZ", "au-nz-2026"],
    ["au-nz", "FR", "au-nz-2026"],
  ])("of a site in region %s of %s is %s", async (region, country, id) => {
    const reply = await siting(await surveyedSite(surveyBody(), { region, country }));
    expect(reply.body.rulePack.id).toBe(id);
  });

  test("can be chosen; one that is not for the survey's region says so", async () => {
    const reply = await siting(await surveyedSite(surveyBody()), "?rulePack=us-2026");
    expect(reply.body.rulePack.id).toBe("us-2026");
    expect(findingOf(reply, "rule-pack")).toMatchObject({ verdict: "needs-survey" });
  });

  test("that is not there, or of no region, is refused with those that are", async () => {
    const site = await surveyedSite(surveyBody(), { region: "normandie", country: "FR" });
    const none = await siting(site);
    expect([none.status, pointersOf(none)]).toEqual([422, ["/query/rulePack"]]);
    expect(none.body.detail).toContain("uk-2026");
    const unknown = await siting(site, "?rulePack=atlantis");
    expect([unknown.status, pointersOf(unknown)]).toEqual([422, ["/query/rulePack"]]);
    const version = await siting(site, "?rulePackVersion=1");
    expect([version.status, pointersOf(version)]).toEqual([422, ["/query/rulePackVersion"]]);
  });

  test("of the firm's own comes before the product's for its region, in any version", async () => {
    const site = await surveyedSite(surveyBody(1999), { region: "fells" });
    expect((await siting(site)).body.rulePack.id).toBe("uk-2026");
    const manager = service.as(service.firm.people.manager);
    const body = packBody({ id: "fell-rules", region: "fells" });
    expect((await manager.post("/api/v1/rule-packs").send(body)).status).toBe(201);
    const own = await siting(site);
    expect(own.body.rulePack).toMatchObject({ id: "fell-rules", version: 1 });
    expect(findingOf(own, "house-window")).toMatchObject({ verdict: "breaks", margin: -1 });
    const [rule] = body.rules;
    const laxer = { ...rule, distance: { shape: "straight-line", minimumMm: 1999 } };
    const put = manager.put("/api/v1/rule-packs/fell-rules").set("if-match", '"1"');
    expect((await put.send({ ...body, rules: [laxer] })).status).toBe(200);
    expect(findingOf(await siting(site), "house-window")?.verdict).toBe("meets");
    const before = await siting(site, "?rulePack=fell-rules&rulePackVersion=1");
    expect(findingOf(before, "house-window")?.verdict).toBe("breaks");
    expect((await siting(site, "?rulePack=fell-rules&rulePackVersion=3")).status).toBe(422);
  });
});

describe("the drawing", () => {
  test("is SVG with the distance marked, and needs no inline style or script", async () => {
    const site = await surveyedSite(surveyBody(999));
    const reply = await installer().get(`/api/v1/sites/${site.id}/siting.svg`).buffer();
    expect(reply.headers["content-type"]).toBe("image/svg+xml; charset=utf-8");
    expect(reply.headers["x-content-type-options"]).toBe("nosniff");
    const svg = reply.body.toString() as string;
    expect(svg).toMatch(/^<svg [^>]*viewBox="0 0 960 /);
    expect(svg).toContain("breaks: 999 mm");
    expect(svg).not.toMatch(/ style=|<style|<script|<foreignObject| on[a-z]+=|href=/i);
  });

  test("writes names as text, whatever they hold", async () => {
    const name = `<script>alert("1")</script>`;
    const site = await surveyedSite(surveyBody(999, { title: name }));
    const reply = await installer().get(`/api/v1/sites/${site.id}/siting.svg`).buffer();
    const svg = reply.body.toString() as string;
    expect(svg).toContain("&lt;script&gt;");
    expect(svg).not.toContain("<script");
  });
});

describe("a survey that is only tried", () => {
  const attempt = (body: object, query = "") =>
    installer().post(`/api/v1/siting${query}`).send(body);

  test("is judged by the pack for its region, and nothing is kept", async () => {
    const reply = await attempt({ survey: surveyBody(999) });
    expect(reply.status, JSON.stringify(reply.body)).toBe(200);
    expect(reply.body.rulePack.id).toBe("uk-2026");
    expect(findingOf(reply, "uk-outdoor-openings")?.verdict).toBe("breaks");
    const other = await attempt({ survey: surveyBody(999), rulePack: "us-2026" });
    expect(other.body.rulePack.id).toBe("us-2026");
  });

  test("is drawn where that is asked for, by query or by Accept header", async () => {
    const body = { survey: surveyBody(999) };
    const type = (reply: { headers: Record<string, string> }) => reply.headers["content-type"];
    expect(type(await attempt(body, "?format=svg"))).toContain("image/svg+xml");
    const accepting = (accept: string) => attempt(body).set("accept", accept);
    expect(type(await accepting("image/svg+xml"))).toContain("image/svg+xml");
    expect(type(await accepting("application/json, image/svg+xml;q=0.5"))).toContain("json");
    expect(type(await accepting("application/json;q=0.1, image/svg+xml;q=0.5"))).toContain("svg");
    expect(type(await accepting("*/*"))).toContain("json");
  });

  test("is refused at the place of its fault", async () => {
    const reply = await attempt({ survey: { ...surveyBody(), units: [] } });
    expect([reply.status, pointersOf(reply)]).toEqual([422, ["/body/survey/units"]]);
    const pack = await attempt({ survey: surveyBody(1, { region: "atlantis" }) });
    expect([pack.status, pointersOf(pack)]).toEqual([422, ["/body/rulePack"]]);
  });
});
