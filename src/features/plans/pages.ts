import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { PlanChange } from "../../domain/plan/diff.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAt } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { readFirm } from "../firms/store.ts";
import { type ComparedVersions, compareVersions } from "./compare-versions.ts";
import { withStarter } from "./copy-starter.ts";
import { DiffQuery } from "./diff-schemas.ts";
import { writePlan } from "./keep-plan.ts";
import { NewPlan, VersionParams } from "./schemas.ts";
import { shownStarter } from "./shown.ts";
import { COLUMNS, sortedPlans } from "./sorted-store.ts";
import { STARTER_PLANS } from "./starter-plans.ts";
import { startersIn } from "./starters-in.ts";
import { countOpenJobs, type PlanRow, planCodes } from "./store.ts";

const USUAL = "title";
const PageQuery = z.object({
  ...sortedQuery(COLUMNS),
  title: asked(z.string().trim().max(200)),
});
const StarterForm = z.object({ starter: z.string().max(60), code: NewPlan.shape.code });

export const planPages: Feature = async (app, { db }) => {
  app.get("/plans", {
    schema: { operationId: "plansPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { firmId, roles } = signedIn(request);
      const { query } = request;
      const { title } = query;
      const sorting = sortingOf(query, USUAL);
      const { rows, list, openJobs, timeZone, taken } = await inFirm(db, firmId, async (tx) => {
        const found = await sortedPlans(tx, { title, sorting, most: A_PAGE + 1 });
        const page = sortedPage(found, {
          ...{ path: "/plans", columns: COLUMNS, usual: USUAL, query },
          exportPath: "/api/v1/exports/plans.csv",
        });
        const versionIds = page.rows.flatMap(({ versions }) => versions.map(({ id }) => id));
        const openJobs = await countOpenJobs(tx, versionIds);
        const codes = STARTER_PLANS.map(({ code }) => code);
        const { timeZone } = await readFirm(tx);
        return { ...page, openJobs, timeZone, taken: await planCodes(tx, codes) };
      });
      const dayOf = (time: Date) => dayAt(request.language, time, timeZone);
      return sendPage(request, reply, "plans", {
        title: say(request.language, "plans.title"),
        plans: rows.map((plan) => planRow(plan, openJobs, dayOf)),
        ...{ list, filter: { title }, filtered: title !== undefined },
        starters: startersIn(request.language).map((starter) => ({
          ...shownStarter(starter),
          isThere: taken.has(starter.code),
        })),
        mayCopy: roles.some((role) => role === "owner" || role === "manager"),
      });
    },
  });

  app.post("/plans", {
    schema: { operationId: "starterPlanForm", hide: true, body: StarterForm },
    handler: async (request, reply) => {
      const { body, language } = request;
      const { firmId } = signedIn(request);
      await inFirm(db, firmId, (tx) => writePlan(tx, withStarter(body, language)));
      return reply.redirect("/plans", 303);
    },
  });

  app.get("/plans/:id/versions/:number/diff", {
    schema: {
      ...{ operationId: "planDiffPage", hide: true },
      ...{ params: VersionParams, querystring: DiffQuery },
    },
    handler: async (request, reply) => {
      const { id: planId, number } = request.params;
      const { from } = request.query;
      const diff = await inFirm(db, signedIn(request).firmId, (tx) =>
        compareVersions(tx, { planId, number, from }),
      );
      const { language } = request;
      const { plan, to, from: against } = diff;
      const title = say(language, "plans.diffHead", { code: plan.code, to, from: against });
      return sendPage(request, reply, "plan-diff", { title, ...diffPage(diff, language) });
    },
  });
};

function planRow(
  { id, code, title, versions }: PlanRow,
  openJobs: ReadonlyMap<string, number>,
  dayOf: (time: Date) => string,
) {
  return {
    ...{ id, code, title },
    versions: versions.map((version, index) => ({
      number: version.number,
      isDraft: version.state === "draft",
      publishedOn: version.publishedAt && dayOf(version.publishedAt),
      openJobs: openJobs.get(version.id) ?? 0,
      from: versions[index + 1]?.number,
      diff: `/plans/${id}/versions/${version.number}/diff`,
    })),
  };
}

const WEIGHTS: Readonly<Record<PlanChange["weight"], { tag: string; mark: string }>> = {
  stricter: { tag: "warn", mark: "▲" },
  looser: { tag: "bad", mark: "▼" },
  different: { tag: "plain", mark: "◆" },
  wording: { tag: "plain", mark: "≈" },
};

function diffPage(diff: ComparedVersions, language: ShownLanguage) {
  const { plan, from, to, changes, weights, instruments, openJobs } = diff;
  const wordOf = (weight: PlanChange["weight"]) => say(language, `plans.weight.${weight}`);
  return {
    ...{ code: plan.code, planTitle: plan.title, from, to, count: changes.length },
    counts: Object.entries(weights).map(([weight, count]) => ({
      word: wordOf(weight as PlanChange["weight"]),
      count,
      ...WEIGHTS[weight as PlanChange["weight"]],
    })),
    toBring: instruments.toBring.join(", "),
    noLonger: instruments.noLonger.join(", "),
    openJobs: openJobs.sentence,
    others: plan.versions.filter(({ number }) => number !== to && number !== from),
    path: `/plans/${plan.id}/versions/${to}/diff`,
    changes: changes.map(({ kind, weight, sentence, concerns, itemId, stageId }) => ({
      ...{ kind, word: wordOf(weight), sentence, concerns: concerns.join(", ") },
      ...{ place: itemId ?? stageId ?? "plan", ...WEIGHTS[weight] },
    })),
  };
}
