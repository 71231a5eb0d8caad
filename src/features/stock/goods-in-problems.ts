import { type FieldError, Problem } from "../../errors.ts";
import { type FieldProblems, refusedFields } from "../../web/form.ts";

/**
 * A refusal by the form's fields: of the checks by each check, and a serial with its suggestion.
 */
export function goodsInProblems(error: unknown): FieldProblems {
  if (!(error instanceof Problem)) throw error;
  const errors = (error.extras.errors ?? []) as readonly FieldError[];
  const checks = errors.flatMap(({ pointer, detail }) => {
    const check = /^\/body\/checks\/(.+)$/.exec(pointer)?.[1];
    return check === undefined ? [] : [[check, detail] as const];
  });
  if (checks.length > 0) return { ...Object.fromEntries(checks), "": error.message };
  return refusedFields(error);
}
