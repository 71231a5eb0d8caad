import { checkPlan } from "../../domain/plan/check.ts";
import type { Item } from "../../domain/plan/item.ts";
import { documentOf } from "./keep-plan.ts";
import type { StarterPlan } from "./starter-plans.ts";
import type { PlanRow, PlanVersionRow } from "./store.ts";

type Head = Omit<PlanVersionRow, "document" | "previousDocument">;

export function shownPlan({ versions, createdAt, ...plan }: PlanRow) {
  const draft = versions.find(({ state }) => state === "draft");
  const published = versions.find(({ state }) => state === "published");
  return {
    ...plan,
    draft: draft ? shownHead(draft) : null,
    published: published ? shownHead(published) : null,
    createdAt: createdAt.toISOString(),
  };
}

export function shownHead({ publishedAt, createdAt, state, ...head }: Head) {
  return {
    ...head,
    state: state as "draft" | "published",
    publishedAt: publishedAt?.toISOString() ?? null,
    createdAt: createdAt.toISOString(),
  };
}

export function shownVersion(row: PlanVersionRow) {
  const document = documentOf(row);
  return { ...shownHead(row), document, ...findingsOn(document) };
}

export function findingsOn(document: unknown) {
  const checked = checkPlan(document);
  return checked.ok
    ? { publishable: true, problems: [], warnings: checked.warnings }
    : { publishable: false, problems: checked.problems, warnings: [] };
}

export function shownStarter({ name, code, description, jobKinds, document }: StarterPlan) {
  const items = document.stages.flatMap((stage) => stage.items) as Partial<Item>[];
  const holdPoints = items.filter(({ holdPoint, safetyCritical }) => holdPoint || safetyCritical);
  return {
    ...{ name, code, title: document.title, description, jobKinds },
    ...{ stages: document.stages.length, items: items.length, holdPoints: holdPoints.length },
  };
}
