// Requirement: a document that is no plan/1 is refused in bounded time, however large or deep it
// is, and every fault of its shape is told with its place.
import type { z } from "zod";
import { type PlanProblem, pointerOf } from "./problem.ts";
import { Plan } from "./schema.ts";

export type ShapeCheck = { ok: true; plan: Plan } | { ok: false; problems: PlanProblem[] };

/** The deepest place of a plan is nine levels down. */
const LEVELS_MOST = 12;
const VALUES_MOST = 60_000;
const CHARACTERS_MOST = 512 * 1024;

/** Reads anything as plan/1. */
export function readPlan(document: unknown): ShapeCheck {
  const excess = excessOf(document);
  if (excess) return { ok: false, problems: [{ pointer: "", code: "shape", sentence: excess }] };
  const parsed = Plan.safeParse(document);
  if (parsed.success) return { ok: true, plan: parsed.data };
  return { ok: false, problems: parsed.error.issues.flatMap((issue) => problemsOf(issue, [])) };
}

/** What makes the document unfit to be looked at more closely. */
function excessOf(document: unknown): string | undefined {
  let values = 0;
  let characters = 0;
  let level: unknown[] = [document];
  for (let depth = 0; level.length > 0; depth += 1) {
    if (depth > LEVELS_MOST) return `A plan is at most ${LEVELS_MOST} levels deep.`;
    const below: unknown[] = [];
    for (const value of level) {
      values += 1;
      if (typeof value === "string") characters += value.length;
      if (typeof value === "object" && value !== null) {
        if (Object.hasOwn(value, "__proto__")) return '"__proto__" is not a field of a plan.';
        for (const part of Object.values(value)) below.push(part);
      }
      if (values + below.length > VALUES_MOST || characters > CHARACTERS_MOST) {
        return `A plan holds at most ${VALUES_MOST} values and ${CHARACTERS_MOST} characters.`;
      }
    }
    level = below;
  }
  return undefined;
}

type Issue = z.core.$ZodIssue;

function problemsOf(issue: Issue, above: readonly PropertyKey[]): PlanProblem[] {
  const path = [...above, ...issue.path];
  if (issue.code === "invalid_union" && issue.errors.length > 0) {
    return nearestShape(issue.errors).flatMap((inner) => problemsOf(inner as Issue, path));
  }
  if (issue.code === "unrecognized_keys") {
    return issue.keys.map((key) => ({
      pointer: pointerOf([...path, key]),
      code: "shape",
      sentence: `"${key.slice(0, 60)}" is not a field here.`,
    }));
  }
  return [{ pointer: pointerOf(path), code: "shape", sentence: wordedIssue(issue) }];
}

/** Of several allowed shapes the one with the least wrong is the one that was meant. */
function nearestShape(
  shapes: readonly (readonly { code: string }[])[],
): readonly { code: string }[] {
  const cost = (issues: readonly { code: string }[]): number =>
    issues.reduce((sum, { code }) => sum + (code === "unrecognized_keys" ? 3 : 1), 0);
  return shapes.reduce((best, next) => (cost(next) < cost(best) ? next : best));
}

function wordedIssue({ message }: Issue): string {
  const missing = /^Invalid input: expected (\w+), received undefined$/.exec(message);
  return missing ? `This is missing; it is a ${missing[1]}.` : `${message.replace(/\.$/, "")}.`;
}
