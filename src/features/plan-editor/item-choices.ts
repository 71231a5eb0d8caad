import type { FastifyRequest } from "fastify";
import type { DraftItem, draftStages } from "../../domain/plan/edit.ts";
import { INSTRUMENT_CLASSES, UNIT_KINDS } from "../../domain/plan/item.ts";
import { UNIT_SYMBOLS } from "../../domain/quantities/units.ts";
import { say } from "../../language/say.ts";

/** Forms of limit that a kind of item takes. */
const LIMITS: Readonly<Record<string, readonly string[]>> = {
  measure: ["range", "nominal", "expression"],
  tighten: ["range", "nominal", "expression"],
  count: ["count", "range", "expression"],
  choose: ["none", "one-of"],
  identify: ["none", "one-of", "expression"],
};

/** What the selects of an item's form offer. */
export function choicesFor(
  { language }: FastifyRequest,
  item: DraftItem,
  stages: ReturnType<typeof draftStages>,
) {
  const named = (values: readonly string[], area: "limit" | "repeat" | "rule" | "sequence") =>
    values.map((value) => ({ value, text: say(language, `editor.${area}.${value}` as never) }));
  const plain = (values: readonly string[]) => values.map((value) => ({ value, text: value }));
  return {
    is: { [item.kind]: true },
    limitForms: LIMITS[item.kind] ? named(LIMITS[item.kind] ?? [], "limit") : undefined,
    repeats: named(["once", "unit", "groups", "times"], "repeat"),
    rules: named(["simple", "guarded", "four-way"], "rule"),
    sequences: named(["block", "mark"], "sequence"),
    unitKinds: UNIT_KINDS.map((kind) => ({
      value: kind,
      text: say(language, `models.kind.${kind}`),
    })),
    supplies: plain(["dead", "live"]).map(({ value }) => ({
      value,
      text: say(language, value === "dead" ? "editor.supply.dead" : "editor.supply.live"),
    })),
    tolerances: [
      { value: "absolute", text: say(language, "editor.tolerance.absolute") },
      { value: "percent", text: "%" },
    ],
    whats: [
      { value: "serial", text: say(language, "editor.what.serial") },
      { value: "firmware-level", text: say(language, "editor.what.firmware") },
    ],
    signers: [
      { value: "customer", text: say(language, "editor.whose.customer") },
      { value: "installer", text: say(language, "editor.whose.installer") },
    ],
    instruments: plain(INSTRUMENT_CLASSES),
    units: plain(UNIT_SYMBOLS),
    otherItems: stages.flatMap(({ items }) => items.filter(({ id }) => id !== item.id)),
  };
}
