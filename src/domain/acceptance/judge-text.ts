// Requirement: what was chosen or read off a unit against what is accepted.
import type { CompiledItem } from "../plan/compile.ts";
import type { ValueFacts } from "./value-facts.ts";
import { type Finding, failing, notComputable, passing } from "./verdict.ts";

/**
 * The verdict on a text.
 * @param read what was found, as a sentence without its point: "Chosen: B"
 * @param toClear what clears a failure unless the item says it
 */
export function judgeText(
  { limit, item }: CompiledItem,
  text: string,
  read: string,
  toClear: string,
  facts: ValueFacts,
): Finding {
  if (!limit) return passing(`${read}.`);
  const clear = { toClear: item.toClear ?? toClear };
  if (limit.kind === "one-of") {
    const wanted = limit.values.map(String);
    const sentence = `${read}; needed ${wanted.join(" or ")}.`;
    return wanted.includes(text) ? passing(sentence) : failing("failed", sentence, clear);
  }
  if (limit.kind !== "expression") throw new Error(`${item.id} has a limit that is none for text`);
  const result = limit.expression.evaluate({ ...facts.names(), value: text });
  if (!result.ok) return notComputable(`${read}.`, result.problem);
  const sentence = `${read}; needed ${limit.words}.`;
  return result.value === true ? passing(sentence) : failing("failed", sentence, clear);
}
