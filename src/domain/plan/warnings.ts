// What the writer of a plan should look at, though the plan can be worked with.
import type { CompiledItem } from "./compile.ts";
import { INSTRUMENT_CLASSES } from "./item.ts";
import type { ItemFault } from "./item-check.ts";

/** What deserves a look about one item of a plan. */
export function warningsOf(compiled: CompiledItem, all: readonly CompiledItem[]): ItemFault[] {
  const { item, applies, limit } = compiled;
  const warnings: ItemFault[] = [];
  if (item.kind === "measure" && !item.instrument) {
    const sentence = "No class of instrument is named, so its calibration will not be looked at.";
    warnings.push({ place: "", code: "no-instrument", sentence });
  }
  const wanted: string | undefined = item.instrument?.class;
  if (wanted !== undefined && !(INSTRUMENT_CLASSES as readonly string[]).includes(wanted)) {
    const sentence = `"${wanted}" is none of the usual classes of instruments; is it spelt right?`;
    warnings.push({ place: "/instrument/class", code: "unusual-instrument", sentence });
  }
  if (limit?.kind === "expression" && limit.words === limit.expression.text) {
    const sentence = `Whoever works reads "needed ${limit.words}": say it in words.`;
    warnings.push({ place: "/limit", code: "no-words", sentence });
  }
  const decided = applies?.evaluate({});
  if (decided?.ok && decided.value === true) {
    const sentence = `"${applies?.text}" is always true.`;
    warnings.push({ place: "/appliesWhen", code: "always-applies", sentence });
  }
  const place = all.indexOf(compiled);
  for (const id of compiled.needs) {
    if (all.findIndex((other) => other.item.id === id) < place) continue;
    const sentence = `It needs "${id}", which stands later in the plan.`;
    warnings.push({ place: "", code: "needs-later-item", sentence });
  }
  return warnings;
}
