// Requirement: what protects the crew follows from the work itself, so it cannot be forgotten in a
// plan: lifting, drilling, working dead and working live. Standards are named for the kind of
// thing; which class of it is worn is for the risk assessment, the maker's instructions and local
// codes.
import type { Plan } from "../plan/schema.ts";
import type { KitGap, KitItem, KitModel, KitNote, KitUnit } from "./kit-item.ts";
import { LIFTING_GUIDE } from "./lifting-guides.ts";
import type { CountedIn, LineCategory } from "./line.ts";

/** Names are data in English; a page has them in the reader's language by the key. */
function thing(
  id: string,
  name: string,
  how: { category?: LineCategory; amount?: number; countedIn?: CountedIn; perPerson?: boolean },
  source: string,
  notes: readonly KitNote[] = [],
): KitItem {
  const { category = "protective-equipment", amount = 1, countedIn = "piece" } = how;
  const perPerson = how.perPerson ?? false;
  const named = { key: `work:${id}`, category, name, amount, countedIn, perPerson };
  return { ...named, notes, sources: [source] };
}

const EACH = { perPerson: true } as const;
const PAIR_EACH = { perPerson: true, countedIn: "pair" } as const;
const TOOL = { category: "tool" } as const;
const PRACTICE = "common practice, no source";

/** For lifting, by the heaviest unit that is carried to the site. */
export function liftingKit(
  models: readonly KitModel[],
  units: readonly KitUnit[],
): { items: KitItem[]; gaps: KitGap[] } {
  const carried = models.filter(({ code }) =>
    units.some(({ modelCode, atSite }) => modelCode === code && !atSite),
  );
  const unknown = carried.filter(({ attributes }) => typeof attributes.massKg !== "number");
  const gaps = unknown.map(({ code }): KitGap => ({ code: "no-mass", model: code }));
  const heaviestKg = Math.max(0, ...carried.map(({ attributes }) => massOf(attributes.massKg)));
  const { onePersonMostKg: one, twoPeopleMostKg: two, document, edition } = LIFTING_GUIDE;
  if (heaviestKg <= one) return { items: [], gaps };
  const source = `${document}, ${edition} (from memory)`;
  const beyondTwo: KitItem[] =
    heaviestKg <= two
      ? []
      : [
          thing("lifting-aid", "Lifting aid: stair climber, hoist or lift table", TOOL, source, [
            { code: "two-people-most", heaviestKg, mostKg: two },
          ]),
        ];
  const shoes = thing("footwear", "Safety footwear", PAIR_EACH, "ISO 20345 (from memory)", [
    { code: "one-person-most", heaviestKg, mostKg: one },
  ]);
  const grip = thing("grip-gloves", "Gloves with grip", PAIR_EACH, "EN 388 (from memory)");
  return { items: [...beyondTwo, shoes, grip], gaps };
}

const massOf = (mass: unknown): number => (typeof mass === "number" ? mass : 0);

/** For drilling, where anchors are set. */
export function drillingKit(packed: readonly KitItem[]): KitItem[] {
  if (!packed.some(({ category }) => category === "anchor")) return [];
  return [
    thing("hammer-drill", "Hammer drill, with the bits that the anchors ask for", TOOL, PRACTICE),
    thing("hole-cleaning", "Brush and pump to clean the holes", TOOL, PRACTICE),
    thing("detector", "Detector for pipes and cables in the wall", TOOL, PRACTICE),
    thing("eye-protection", "Eye protection", EACH, "EN ISO 16321-1 (from memory)"),
    thing("dust-mask", "Filtering mask against drilling dust", EACH, "EN 149 (from memory)"),
  ];
}

/** For isolating, and for tests with the supply on. */
export function electricalKit(plan: Plan): KitItem[] {
  const items = plan.stages.flatMap((stage) => stage.items);
  const titles = (state: "dead" | "live") => [
    ...items.filter(({ supply }) => supply === state).map(({ title }) => title),
  ];
  const [dead, live] = [titles("dead"), titles("live")];
  const locks = thing(
    "lock-off",
    "Locks and tags to isolate, and the means to prove dead",
    { countedIn: "set" },
    "EN 50110-1 6.2 (from memory)",
    [{ code: "for-items", items: dead }],
  );
  const gloves = thing(
    "insulating-gloves",
    "Insulating gloves of the class of the voltage",
    PAIR_EACH,
    "IEC 60903 (from memory)",
    [{ code: "for-items", items: live }],
  );
  return [...(dead.length > 0 ? [locks] : []), ...(live.length > 0 ? [gloves] : [])];
}
