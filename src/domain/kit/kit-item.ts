// Requirement: whoever packs sees why each thing is on the list and where that stands; whoever
// reads the list in another language sees the same. Reasons are therefore codes with values, not
// sentences.
import type { CountedIn, KitCategory, ModelKitLine } from "./line.ts";

/** Why a thing is on the list, or what to mind about it. */
export type KitNote =
  | { code: "for-items"; items: readonly string[] }
  | { code: "torque-settings"; settings: readonly string[] }
  | { code: "shear-each"; newtons: number }
  | { code: "tension-each"; newtons: number }
  | { code: "tension-unknown"; missing: readonly string[] }
  | { code: "one-person-most"; heaviestKg: number; mostKg: number }
  | { code: "two-people-most"; heaviestKg: number; mostKg: number }
  | { code: "least-run"; from: string; to: string }
  | { code: "reach"; heightMm: number }
  | { code: "combustible-wall"; place: string }
  | { code: "text"; text: string };

/** What the list cannot say, and why. */
export type KitGap =
  | { code: "no-survey" }
  | { code: "wall-not-surveyed"; place: string }
  | { code: "not-on-one-wall"; unit: string }
  | { code: "no-mass"; model: string };

export interface KitItem {
  /** Stays the same while the job's plan and units do, so that ticks keep their line. */
  key: string;
  category: KitCategory;
  name: string;
  /** Of tools by their class: the class, for a name in the reader's language. */
  toolClass?: string;
  amount: number;
  countedIn: CountedIn;
  /** The amount is for each person of the crew. */
  perPerson: boolean;
  stockCode?: string;
  notes: readonly KitNote[];
  sources: readonly string[];
}

/** Product models by code, as far as the kit rests on them. */
export interface KitModel {
  code: string;
  name: string;
  attributes: Readonly<Record<string, string | number | boolean>>;
  kit: readonly ModelKitLine[];
}

export interface KitUnit {
  id: string;
  serial: string;
  kind: string;
  modelCode: string;
  /** It stands at the site already: nothing of it is carried there. */
  atSite: boolean;
}

const ORDER: readonly KitCategory[] = [
  ...(["unit", "anchor", "cable", "consumable", "tool", "protective-equipment"] as const),
];

/** Category by category, each in the order of first mention. */
export function inPackingOrder(items: readonly KitItem[]): KitItem[] {
  return items.toSorted((a, b) => ORDER.indexOf(a.category) - ORDER.indexOf(b.category));
}
