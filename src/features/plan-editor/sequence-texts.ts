// The order in which, and the state of supply and breakers with which, an item is done, as fields.
import type { DraftItem } from "../../domain/plan/edit.ts";
import { linesOf, pairsOf, wholeNumber } from "./bound-text.ts";
import type { Fields } from "./limit-fields.ts";

type Part = Record<string, unknown>;
const part = (value: unknown): Part =>
  (typeof value === "object" && value !== null ? value : {}) as Part;

export function sequenceTexts(item: DraftItem): Fields {
  const breakers = part(item.breakers);
  const dwell = part(item.dwell);
  return {
    sequence: text(item.sequence),
    supply: text(item.supply),
    breakersWith: states(breakers.with),
    breakersLeaves: states(breakers.leaves),
    dwellAfter: text(dwell.after),
    dwellAtLeastS: text(dwell.atLeastS),
    dwellAtMostS: text(dwell.atMostS),
    onFailRepeat: Array.isArray(item.onFailRepeat) ? item.onFailRepeat.join("\n") : "",
  };
}

export function readSequence(fields: Fields): Part {
  const stand = readStates(fields.breakersWith);
  const leaves = readStates(fields.breakersLeaves);
  const repeats = linesOf(fields.onFailRepeat ?? "");
  const atMostS = wholeNumber(fields.dwellAtMostS ?? "");
  return {
    sequence: fields.sequence || undefined,
    supply: fields.supply || undefined,
    breakers:
      stand || leaves
        ? { ...(stand ? { with: stand } : {}), ...(leaves ? { leaves } : {}) }
        : undefined,
    dwell: fields.dwellAfter
      ? {
          after: fields.dwellAfter,
          atLeastS: wholeNumber(fields.dwellAtLeastS ?? "") ?? 0,
          ...(atMostS === undefined ? {} : { atMostS }),
        }
      : undefined,
    onFailRepeat: repeats.length > 0 ? repeats : undefined,
  };
}

const text = (value: unknown): string =>
  typeof value === "string" || typeof value === "number" ? String(value) : "";

const states = (value: unknown): string =>
  Object.entries(part(value))
    .map(([breaker, state]) => `${breaker} = ${state}`)
    .join("\n");

function readStates(lines: string | undefined): Part | undefined {
  const pairs = pairsOf(lines ?? "");
  return pairs.length > 0 ? Object.fromEntries(pairs) : undefined;
}
