// Random plans, jobs and answers, with an oracle of the gate that is written from the rules alone
// and shares no code with it: it walks the drafts, step by step and slowly.
import fc from "fast-check";
import type { BreakerState } from "../../../src/domain/plan/sequence.ts";

export interface DraftItem {
  id: string;
  kind: "confirm" | "measure" | "tighten" | "count" | "choose" | "photo";
  holdPoint: boolean;
  safetyCritical: boolean;
  repeat: "once" | "packs" | "twice";
  /** Places of earlier items. */
  after: number[];
  sequence: "block" | "mark";
  condition: "none" | "tt" | "inverter" | "first";
  needsMeter: boolean;
  needsPhoto: boolean;
  supply: "unsaid" | "dead" | "live";
  /** How the one breaker must stand, and how it is left. */
  stand: "any" | BreakerState;
  leaves: "as it was" | BreakerState;
  /** Minutes after an earlier item, by its place. */
  dwell: { after: number; least: number; most: number | undefined } | undefined;
  /** Places of earlier items. */
  repeats: number[];
}

export interface DraftAnswer {
  item: number;
  subject: number;
  good: boolean;
  minute: number;
  instrument: "none" | "fit" | "stale";
  hasPhoto: boolean;
  person: "person-1" | "person-2";
}

export interface DraftJob {
  items: DraftItem[];
  answers: DraftAnswer[];
  packs: number;
  supply: "TT" | "TN-S";
  photosArrived: boolean;
  concessions: {
    item: number;
    subject: number;
    grantedBy: "person-1" | "person-2";
    isLive: boolean;
  }[];
}

const BREAKER = ["open", "closed"] as const;

/** An item's place in the sequence of tests: often none, so that jobs still close. */
const sequence = (index: number) => ({
  supply: fc.constantFrom("unsaid" as const, "unsaid" as const, "dead" as const, "live" as const),
  stand: fc.constantFrom("any" as const, "any" as const, ...BREAKER),
  leaves: fc.constantFrom("as it was" as const, ...BREAKER),
  dwell:
    index === 0
      ? fc.constant(undefined)
      : fc.option(
          fc
            .record({
              after: fc.nat(index - 1),
              least: fc.nat(3),
              more: fc.option(fc.nat(2), { nil: undefined }),
            })
            .map(({ after, least, more }) => ({
              ...{ after, least },
              most: more === undefined ? undefined : least + more,
            })),
          { nil: undefined, freq: 2 },
        ),
  repeats:
    index === 0 ? fc.constant<number[]>([]) : fc.uniqueArray(fc.nat(index - 1), { maxLength: 2 }),
});

/** A breaker is needed only as an earlier item leaves it: the check refuses more. */
function withReachableStands(items: readonly DraftItem[]): DraftItem[] {
  const left = new Set<string>();
  return items.map((draft) => {
    const stand = left.has(draft.stand) ? draft.stand : "any";
    left.add(draft.leaves);
    return { ...draft, stand };
  });
}

const item = (index: number): fc.Arbitrary<DraftItem> =>
  fc.record({
    id: fc.constant(`item_${index}`),
    kind:
      index === 0
        ? fc.constant("confirm" as const)
        : fc.constantFrom("confirm", "measure", "tighten", "count", "choose", "photo"),
    holdPoint: fc.boolean(),
    safetyCritical: fc.boolean(),
    repeat: index === 0 ? fc.constant("once" as const) : fc.constantFrom("once", "packs", "twice"),
    after: index === 0 ? fc.constant([]) : fc.uniqueArray(fc.nat(index - 1), { maxLength: 2 }),
    sequence: fc.constantFrom("block", "mark"),
    condition:
      index === 0
        ? fc.constant("none" as const)
        : fc.constantFrom("none", "none", "tt", "inverter", "first"),
    needsMeter: fc.boolean(),
    needsPhoto: fc.boolean(),
    ...sequence(index),
  });

const answer: fc.Arbitrary<DraftAnswer> = fc.record({
  item: fc.nat(4),
  subject: fc.nat(1),
  good: fc.boolean(),
  minute: fc.nat(6),
  instrument: fc.constantFrom("none", "fit", "fit", "stale"),
  hasPhoto: fc.boolean(),
  person: fc.constantFrom("person-1", "person-2"),
});

/** Good answers to everything, in the plan's order, so that many random jobs are nearly met. */
const goodAnswers = (count: number): DraftAnswer[] =>
  Array.from({ length: count * 2 }, (_, index) => ({
    item: Math.floor(index / 2),
    subject: index % 2,
    good: true,
    minute: Math.floor(index / 2),
    instrument: "fit",
    hasPhoto: true,
    person: "person-1",
  }));

export const job: fc.Arbitrary<DraftJob> = fc
  .integer({ min: 1, max: 5 })
  .chain((count) =>
    fc.record({
      items: fc.tuple(...Array.from({ length: count }, (_, index) => item(index))),
      isNearlyMet: fc.boolean(),
      more: fc.array(answer, { maxLength: 6 }),
      packs: fc.nat(2),
      supply: fc.constantFrom("TT" as const, "TN-S" as const),
      photosArrived: fc.boolean(),
      concessions: fc.array(
        fc.record({
          item: fc.nat(count - 1),
          subject: fc.nat(1),
          grantedBy: fc.constantFrom("person-1" as const, "person-2" as const),
          isLive: fc.boolean(),
        }),
        { maxLength: 3 },
      ),
    }),
  )
  .map(({ isNearlyMet, more, ...rest }) => {
    const [first, ...others] = rest.items;
    const answers = [...(isNearlyMet ? goodAnswers(rest.items.length) : []), ...more];
    return {
      ...rest,
      items: withReachableStands([{ ...(first as DraftItem), holdPoint: true }, ...others]),
      answers: answers.filter(({ item: place }) => place < rest.items.length),
    };
  });

/** Keys of the subjects of an item. */
export function keysOf({ packs }: DraftJob, { repeat }: DraftItem): string[] {
  if (repeat === "once") return [""];
  if (repeat === "twice") return ["1", "2"];
  return ["pack-1", "pack-2"].slice(0, packs);
}
