// Requirement: whatever stands in the way of an order can be named and left out by itself: each
// need of a release, each range it may be installed over, each withdrawal is a rule (product rule).
import { rangeWords } from "./level-range.ts";
import { insideRange, type Ladder } from "./order-ladders.ts";

/** One rule of one release; `level` is its place on the ladder of `modelCode`. */
export interface OrderRule {
  kind: "from" | "needs" | "withdrawn";
  modelCode: string;
  level: number;
  /** The model the rule speaks of besides its own; its own where there is none. */
  otherCode: string;
  /** By level of the other model: whether the rule allows it. */
  allows: readonly boolean[];
  words: string;
}

type Read<T> = { ok: true; value: T } | { ok: false; problem: string };

/** Every rule of the models on the site; needs of models that are not there rule nothing. */
export function rulesOf(ladders: ReadonlyMap<string, Ladder>): Read<OrderRule[]> {
  const rules: OrderRule[] = [];
  for (const ladder of ladders.values()) {
    for (const level of ladder.levels.keys()) {
      const read = rulesAt(ladders, ladder, level);
      if (!read.ok) return read;
      rules.push(...read.value);
    }
  }
  return { ok: true, value: rules };
}

function rulesAt(
  ladders: ReadonlyMap<string, Ladder>,
  ladder: Ladder,
  level: number,
): Read<OrderRule[]> {
  const release = ladder.releases[level];
  if (!release) return { ok: true, value: [] };
  const modelCode = ladder.model.code;
  const rules: OrderRule[] = [];
  if (release.withdrawn) {
    const words = `${modelCode} ${release.level} is withdrawn`;
    rules.push({ kind: "withdrawn", modelCode, level, otherCode: modelCode, allows: [], words });
  }
  const wanted = [
    ...(release.from ? [{ kind: "from" as const, modelCode, range: release.from }] : []),
    ...(release.needs ?? []).map((companion) => ({ kind: "needs" as const, ...companion })),
  ];
  for (const { kind, modelCode: otherCode, range } of wanted) {
    const other = ladders.get(otherCode);
    if (!other) continue;
    const inside = insideRange(other, range);
    if (!inside.ok) return inside;
    const words =
      kind === "from"
        ? `${modelCode} ${release.level} is installed over ${rangeWords(range)} only`
        : `${modelCode} at ${release.level} needs ${otherCode} at ${rangeWords(range)}`;
    rules.push({ kind, modelCode, level, otherCode, allows: inside.value, words });
  }
  return { ok: true, value: rules };
}
