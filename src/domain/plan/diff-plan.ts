// Requirement: what a plan says of itself bears on all its items: its rule on uncertainty on those
// that have none of their own, its attributes on the product models of the firm.
import type { PlanChange } from "./diff-change.ts";
import { kitChanges } from "./diff-kit.ts";
import { decisionWeight } from "./diff-weights.ts";
import type { Plan } from "./schema.ts";

/** Changes to the plan itself: title, rule on uncertainty, attributes it reads, its pick list. */
export function planChanges(before: Plan, after: Plan): PlanChange[] {
  const changes: PlanChange[] = [];
  const values = (field: string, was: unknown, is: unknown) => ({
    ...{ of: "plan" as const, field },
    ...(was === undefined ? {} : { before: was }),
    ...(is === undefined ? {} : { after: is }),
  });
  if (before.title !== after.title) {
    changes.push({
      ...values("title", before.title, after.title),
      ...{ kind: "renamed", weight: "wording", concerns: ["office"] },
      sentence: `The plan "${before.title}" is now called "${after.title}".`,
    });
  }
  const [rule, ruleNow] = [before.decisionRule, after.decisionRule];
  if (rule !== ruleNow) {
    changes.push({
      ...values("decisionRule", rule, ruleNow),
      ...{ kind: "changed", weight: decisionWeight(rule, ruleNow) },
      concerns: ["installer", "office"],
      sentence: `Unless an item says otherwise, uncertainty counts as ${ruleNow}, not as ${rule}.`,
    });
  }
  const [old, now] = [before.attributes, after.attributes];
  for (const name of [...new Set([...Object.keys(now), ...Object.keys(old)])].sort()) {
    const [was, is] = [old[name], now[name]];
    if (was === is) continue;
    changes.push({
      ...values(`attributes.${name}`, was, is),
      kind: is === undefined ? "removed" : was === undefined ? "added" : "changed",
      ...{ weight: "different", concerns: ["office"] },
      sentence: attributeSentence(name, was, is),
    });
  }
  return [...changes, ...kitChanges(before, after)];
}

function attributeSentence(name: string, was: string | undefined, is: string | undefined): string {
  if (is === undefined) return `The plan no longer reads ${name} of the product model.`;
  if (was === undefined) return `Product models need the attribute ${name}, a ${is}.`;
  return `The attribute ${name} of product models is a ${is} instead of a ${was}.`;
}
