// A random job as the service would see it: its plan, its answers and its facts.
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import type { ConcessionFacts, JobContext, UnitFacts } from "../../../src/domain/plan/context.ts";
import { contextOf, METER, pack, WRENCH } from "../acceptance/judged.ts";
import type { Draft } from "../plan/small-plan.ts";
import { type DraftAnswer, type DraftItem, type DraftJob, keysOf } from "./random-job.ts";

const PHOTO = "1".repeat(64);
const STALE_METER = { ...METER, id: "stale-meter", calibrations: [] };
const STALE_WRENCH = { ...WRENCH, id: "stale-wrench", calibrations: [] };

const CONDITIONS = {
  none: {},
  tt: { appliesWhen: 'site.supply == "TT"' },
  inverter: { appliesWhen: "count.inverter > 0" },
  first: { appliesWhen: "answers.item_0" },
} as const;
const REPEATS = {
  once: {},
  packs: { repeat: { per: "unit", ofKind: "battery-pack" } },
  twice: { repeat: { times: 2 } },
} as const;
const KINDS = {
  confirm: {},
  measure: { unit: "V", limit: { min: 10 } },
  tighten: { points: 2, unit: "N·m", limit: { nominal: 5, tolerance: { percent: 4 } } },
  count: { limit: { count: 4 } },
  choose: { options: ["A", "B"], limit: { oneOf: ["A"] } },
  photo: { photos: 1 },
} as const;

/** The items as a plan writes them. */
export const itemsOf = ({ items }: DraftJob): Draft[] =>
  items.map(({ id, kind, holdPoint, safetyCritical, sequence, ...rest }) => ({
    id,
    kind,
    holdPoint,
    safetyCritical,
    sequence,
    ...KINDS[kind],
    ...REPEATS[rest.repeat],
    ...CONDITIONS[rest.condition],
    after: rest.after.map((place) => `item_${place}`),
    ...(rest.needsMeter && kind === "measure" ? { instrument: { class: "multimeter" } } : {}),
    ...(rest.needsPhoto ? { evidence: { photos: 1 } } : {}),
    ...sequenceOf(rest),
  }));

function sequenceOf({ supply, stand, leaves, dwell, repeats }: SequenceDraft): Draft {
  const breakers = {
    ...(stand === "any" ? {} : { with: { main: stand } }),
    ...(leaves === "as it was" ? {} : { leaves: { main: leaves } }),
  };
  return {
    ...(supply === "unsaid" ? {} : { supply }),
    ...(Object.keys(breakers).length > 0 ? { breakers } : {}),
    ...(repeats.length > 0 ? { onFailRepeat: repeats.map((place) => `item_${place}`) } : {}),
    ...(dwell ? { dwell: dwellOf(dwell) } : {}),
  };
}

type SequenceDraft = Pick<DraftItem, "supply" | "stand" | "leaves" | "dwell" | "repeats">;

const dwellOf = ({ after, least, most }: NonNullable<DraftItem["dwell"]>): Draft => ({
  after: `item_${after}`,
  atLeastS: least * 60,
  ...(most === undefined ? {} : { atMostS: most * 60 }),
});

const GOOD = {
  confirm: { done: true },
  measure: { number: 10, unit: "V" },
  tighten: { points: [1, 2], setting: { number: 5, unit: "N·m" } },
  count: { count: 4 },
  choose: { choice: "A" },
  photo: {},
} as const;
const BAD = {
  confirm: { done: false },
  measure: { number: 9.9, unit: "V" },
  tighten: { points: [1], setting: { number: 5, unit: "N·m" } },
  count: { count: 3 },
  choose: { choice: "B" },
  photo: {},
} as const;

const subjectKey = (job: DraftJob, place: number, subject: number): string => {
  const item = job.items[place] as DraftItem;
  return keysOf(job, item)[item.repeat === "once" ? 0 : subject] ?? "pack-9";
};

/** The answer as it is sent. */
export function answerOf(job: DraftJob, draft: DraftAnswer, order: number): Answer {
  const { id, kind } = job.items[draft.item] as DraftItem;
  const tool = kind === "tighten" ? "wrench" : "meter";
  const instrumentId = draft.instrument === "stale" ? `stale-${tool}` : tool;
  return {
    id: `a-${order}`,
    itemId: id,
    subject: subjectKey(job, draft.item, draft.subject),
    takenAt: `2026-11-25T09:${String(draft.minute).padStart(2, "0")}:00Z`,
    personId: draft.person,
    order,
    value: (draft.good ? GOOD : BAD)[kind],
    photos: draft.hasPhoto ? [PHOTO] : [],
    ...(draft.instrument === "none" ? {} : { instrumentId }),
  };
}

/** All the answers as they are sent. */
export const answersOf = (job: DraftJob): Answer[] =>
  job.answers.map((draft, index) => answerOf(job, draft, index));

/** The facts of the job. */
export function contextFor(job: DraftJob): JobContext {
  const units: UnitFacts[] = [pack(1), pack(2)].slice(0, job.packs);
  const concessions = job.concessions.map(
    ({ item: place, subject, grantedBy, isLive }, index): ConcessionFacts => ({
      id: `c-${index}`,
      itemId: `item_${place}`,
      subject: subjectKey(job, place, subject),
      grantedBy,
      revoked: !isLive,
    }),
  );
  return contextOf({
    site: { supply: job.supply, region: "uk", country: "GB", timeZone: "Europe/London" },
    units,
    concessions,
    instruments: [METER, WRENCH, STALE_METER, STALE_WRENCH],
    photosHeld: new Set(job.photosArrived ? [PHOTO] : []),
  });
}
