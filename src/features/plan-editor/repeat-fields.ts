// How often an item is asked, as fields: once, per unit, per fastener group, or a number of times.
import { pairsOf, wholeNumber } from "./bound-text.ts";
import type { Fields } from "./limit-fields.ts";

type Part = Record<string, unknown>;

export function repeatFields(repeat: unknown): Fields {
  if (typeof repeat !== "object" || repeat === null) return { repeat: "once" };
  const of = repeat as Part;
  if ("times" in of) return { repeat: "times", times: String(of.times) };
  if (of.per === "fastener-group" && Array.isArray(of.groups)) {
    const lines = of.groups.map(({ id, title }: Part) => `${id}: ${title}`);
    return { repeat: "groups", groups: lines.join("\n") };
  }
  return { repeat: "unit", ofKind: typeof of.ofKind === "string" ? of.ofKind : "" };
}

export function readRepeat(fields: Fields): object | undefined {
  switch (fields.repeat) {
    case "times":
      return { times: wholeNumber(fields.times ?? "") };
    case "unit":
      return { per: "unit", ...(fields.ofKind ? { ofKind: fields.ofKind } : {}) };
    case "groups":
      return {
        per: "fastener-group",
        groups: pairsOf(fields.groups ?? "", ":").map(([id, title]) => ({ id, title })),
      };
    default:
      return undefined;
  }
}
