// Requirement: a plan is checked when it is published, and every fault is told with its place in
// the document (RFC 6901 pointer), so that no job meets it in a cellar.
import { type CompiledItem, compileItem } from "./compile.ts";
import { findCircles, findUnreachable } from "./dependencies.ts";
import { isHoldPoint } from "./hold-point.ts";
import type { Item } from "./item.ts";
import { itemFaults } from "./item-check.ts";
import { planNames } from "./names.ts";
import type { PlanProblem } from "./problem.ts";
import { ITEMS_MOST, type Plan } from "./schema.ts";
import { breakerFaults, namedItems } from "./sequence-check.ts";
import { linkSequence } from "./sequence-links.ts";
import { sequenceWarnings } from "./sequence-warnings.ts";
import { readPlan } from "./shape-check.ts";
import { warningsOf } from "./warnings.ts";

export type { PlanProblem } from "./problem.ts";

export type PlanCheck =
  | { ok: true; plan: Plan; warnings: PlanProblem[] }
  | { ok: false; problems: PlanProblem[] };

const PROBLEMS_MOST = 100;

interface Placed {
  item: Item;
  stageId: string;
  pointer: string;
}

/**
 * Checks a document as plan/1.
 * @param document anything, e.g. parsed JSON
 * @returns the plan, with what deserves a look; or its problems with their places, at most 100
 */
export function checkPlan(document: unknown): PlanCheck {
  const shape = readPlan(document);
  if (!shape.ok) return { ok: false, problems: shape.problems.slice(0, PROBLEMS_MOST) };
  const { plan } = shape;
  const placed = placeItems(plan);
  if (placed.length > ITEMS_MOST) return { ok: false, problems: [tooMany(placed.length)] };
  const problems = [...doubledIds(plan, placed), ...holdPointProblems(placed)];
  const { compiled, faults } = compileAll(plan, placed);
  problems.push(...faults, ...unknownItems(placed));
  for (const { item, pointer } of placed) problems.push(...under(pointer, itemFaults(item)));
  if (problems.length === 0) {
    const faults = [...findCircles(compiled), ...findUnreachable(compiled)];
    problems.push(...among(placed, faults.length > 0 ? faults : breakerFaults(compiled)));
  }
  if (problems.length > 0) return { ok: false, problems: problems.slice(0, PROBLEMS_MOST) };
  const warnings = compiled.flatMap((one, index) =>
    under(placed[index]?.pointer ?? "", warningsOf(one, compiled)),
  );
  return { ok: true, plan, warnings: [...warnings, ...among(placed, sequenceWarnings(compiled))] };
}

/** Faults of items among the others, with their places in the document. */
function among(
  placed: readonly Placed[],
  faults: readonly { id: string; place: string; code: string; sentence: string }[],
): PlanProblem[] {
  const pointers = new Map(placed.map(({ item, pointer }) => [item.id, pointer]));
  return faults.flatMap((fault) => under(pointers.get(fault.id) ?? "", [fault]));
}

const under = (
  pointer: string,
  faults: readonly { place: string; code: string; sentence: string }[],
): PlanProblem[] =>
  faults.map(({ place, code, sentence }) => ({ pointer: `${pointer}${place}`, code, sentence }));

function placeItems(plan: Plan): Placed[] {
  return plan.stages.flatMap((stage, s) =>
    stage.items.map((item, i) => ({ item, stageId: stage.id, pointer: `/stages/${s}/items/${i}` })),
  );
}

function compileAll(
  plan: Plan,
  placed: readonly Placed[],
): { compiled: CompiledItem[]; faults: PlanProblem[] } {
  const names = planNames(plan);
  const faults: PlanProblem[] = [];
  const compiled = placed.map(({ item, stageId, pointer }) => {
    const result = compileItem(names, stageId, item);
    for (const { place, code, problem } of result.faults) {
      faults.push({ pointer: `${pointer}${place}`, code, sentence: problem });
    }
    return result.compiled;
  });
  return { compiled: linkSequence(compiled), faults };
}

function tooMany(items: number): PlanProblem {
  const sentence = `The plan has ${items} items; at most ${ITEMS_MOST} fit a job.`;
  return { pointer: "/stages", code: "too-many-items", sentence };
}

function doubledIds(plan: Plan, placed: readonly Placed[]): PlanProblem[] {
  const stages = plan.stages.map((stage, s) => ({ id: stage.id, pointer: `/stages/${s}/id` }));
  const items = placed.map(({ item, pointer }) => ({ id: item.id, pointer: `${pointer}/id` }));
  return [stages, items].flatMap((list) => {
    const seen = new Set<string>();
    return list.flatMap(({ id, pointer }) => {
      if (seen.has(id))
        return [{ pointer, code: "doubled-id", sentence: `"${id}" is used twice.` }];
      seen.add(id);
      return [];
    });
  });
}

/**
 * A plan in which every hold point may turn out not to apply could close a job that proves nothing.
 */
function holdPointProblems(placed: readonly Placed[]): PlanProblem[] {
  const holdPoints = placed.filter(({ item }) => isHoldPoint(item));
  if (holdPoints.some(({ item }) => item.appliesWhen === undefined)) return [];
  const sentence =
    holdPoints.length === 0
      ? "No item is a hold point, so the plan would close any job."
      : "Every hold point has a condition: where none applies, the plan would close any job.";
  return [{ pointer: "/stages", code: "no-hold-point", sentence }];
}

function unknownItems(placed: readonly Placed[]): PlanProblem[] {
  const known = new Set(placed.map(({ item }) => item.id));
  return placed.flatMap(({ item, pointer }) =>
    namedItems(item).flatMap(({ place, id }) => {
      if (id !== item.id && known.has(id)) return [];
      const sentence =
        id === item.id ? "An item cannot come after itself." : `There is no item "${id}".`;
      return [{ pointer: `${pointer}${place}`, code: "unknown-item", sentence }];
    }),
  );
}
