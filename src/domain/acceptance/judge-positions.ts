// Requirement: every switch stands where the plan, or the unit's place on the job, wants it.
import type { CompiledItem } from "../plan/compile.ts";
import type { ValueFacts } from "./value-facts.ts";
import { type Finding, failing, notComputable, passing } from "./verdict.ts";

/** The verdict on positions as found, by the name of the switch. */
export function judgePositions(
  compiled: CompiledItem,
  found: Readonly<Record<string, string>>,
  facts: ValueFacts,
): Finding {
  const wrong: string[] = [];
  for (const { switch: name, position } of compiled.positions ?? []) {
    let wanted: string;
    if (typeof position === "string") wanted = position;
    else {
      const result = position.evaluate(facts.names());
      if (!result.ok) return notComputable("", result.problem, `The position of ${name}`);
      wanted = String(result.value);
    }
    const stands = Object.hasOwn(found, name) ? found[name] : undefined;
    if (stands !== wanted) wrong.push(`${name} is ${stands ?? "not given"}, needed ${wanted}`);
  }
  if (wrong.length === 0) return passing("Every switch stands as needed.");
  return failing("failed", `${wrong.join("; ")}.`, {
    toClear: compiled.item.toClear ?? "Set the switches as shown and enter what they show.",
  });
}
