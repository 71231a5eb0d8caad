// The acceptance limit of an item as fields: of which form it is, and the figures of that form.
import { boundText, linesOf, readBound, wholeNumber } from "./bound-text.ts";

export type Fields = Record<string, string>;

export const LIMIT_FORMS = ["none", "range", "nominal", "one-of", "count", "expression"] as const;
export type LimitForm = (typeof LIMIT_FORMS)[number];

type Limit = Record<string, unknown>;

export function limitFields(limit: unknown): Fields {
  if (typeof limit !== "object" || limit === null) return { limitForm: "none" };
  const of = limit as Limit;
  if ("expression" in of) {
    const words = typeof of.words === "string" ? of.words : "";
    return { limitForm: "expression", expression: String(of.expression), words };
  }
  if ("count" in of) return { limitForm: "count", count: String(of.count) };
  if ("oneOf" in of && Array.isArray(of.oneOf)) {
    return { limitForm: "one-of", oneOf: of.oneOf.join("\n") };
  }
  if ("nominal" in of) return nominalFields(of);
  return {
    limitForm: "range",
    least: boundText(of.min ?? of.above),
    leastExcluded: "above" in of ? "true" : "",
    most: boundText(of.max ?? of.below),
    mostExcluded: "below" in of ? "true" : "",
  };
}

function nominalFields({ nominal, tolerance }: Limit): Fields {
  const within = (tolerance ?? {}) as Limit;
  const isPercent = "percent" in within;
  return {
    limitForm: "nominal",
    nominal: boundText(nominal),
    tolerance: String((isPercent ? within.percent : within.absolute) ?? ""),
    toleranceIn: isPercent ? "percent" : "absolute",
  };
}

export function readLimit(fields: Fields): Limit | undefined {
  const { limitForm = "none" } = fields;
  switch (limitForm as LimitForm) {
    case "range":
      return rangeOf(fields);
    case "nominal": {
      const unit = fields.toleranceIn === "percent" ? "percent" : "absolute";
      return {
        nominal: readBound(fields.nominal ?? ""),
        tolerance: { [unit]: readBound(fields.tolerance ?? "") },
      };
    }
    case "one-of":
      return { oneOf: linesOf(fields.oneOf ?? "") };
    case "count":
      return { count: wholeNumber(fields.count ?? "") };
    case "expression": {
      const words = (fields.words ?? "").trim();
      return { expression: (fields.expression ?? "").trim(), ...(words ? { words } : {}) };
    }
    default:
      return undefined;
  }
}

function rangeOf({ least = "", leastExcluded, most = "", mostExcluded }: Fields): Limit {
  const low = readBound(least);
  const high = readBound(most);
  return {
    ...(low === undefined ? {} : { [leastExcluded === "true" ? "above" : "min"]: low }),
    ...(high === undefined ? {} : { [mostExcluded === "true" ? "below" : "max"]: high }),
  };
}
