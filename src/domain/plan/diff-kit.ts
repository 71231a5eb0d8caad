// Requirement: a line of the pick list that changes concerns whoever packs, and is told like any
// other change of a plan.
import type { PlanKitLine } from "../kit/line.ts";
import type { PlanChange } from "./diff-change.ts";
import type { Plan } from "./schema.ts";

/** Lines of the pick list that came, went or changed, by their ids. */
export function kitChanges(before: Plan, after: Plan): PlanChange[] {
  const lines = (plan: Plan) => new Map((plan.kit ?? []).map((line) => [line.id, line]));
  const [old, now] = [lines(before), lines(after)];
  return [...new Set([...now.keys(), ...old.keys()])].flatMap((id) => {
    const [was, is] = [old.get(id), now.get(id)];
    if (JSON.stringify(was) === JSON.stringify(is)) return [];
    return [
      {
        of: "plan" as const,
        field: `kit.${id}`,
        ...(was === undefined ? {} : { before: was }),
        ...(is === undefined ? {} : { after: is }),
        kind: is === undefined ? "removed" : was === undefined ? "added" : "changed",
        weight: "different",
        concerns: ["office", "installer"],
        sentence: sentence(was, is),
      },
    ];
  });
}

const worded = ({ name, amount, countedIn, per }: PlanKitLine): string =>
  `${amount} ${countedIn} ${name} a ${per}`;

function sentence(was: PlanKitLine | undefined, is: PlanKitLine | undefined): string {
  if (is === undefined) return `The pick list no longer has "${was?.name}".`;
  if (was === undefined) return `The pick list now has ${worded(is)}.`;
  if (worded(was) === worded(is)) return `What the pick list says of "${is.name}" has changed.`;
  return `The pick list has ${worded(is)}, where it had ${worded(was)}.`;
}
