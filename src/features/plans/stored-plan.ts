import { Plan } from "../../domain/plan/schema.ts";
import { Problem } from "../../errors.ts";

/** A version that came past the check on publishing, by a restored or edited database. */
export const unreadablePlan = (): Problem =>
  new Problem(
    "conflict",
    "The plan that the job is pinned to cannot be worked by: it has no stages, or a part of it " +
      "cannot be read. Publish a new version of the plan, then open another job with it.",
  );

/** The plan of a published version. */
export function storedPlan(document: unknown): Plan {
  const read = Plan.safeParse(document);
  if (!read.success) throw unreadablePlan();
  return read.data;
}
