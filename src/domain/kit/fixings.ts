// Requirement: what is not in the maker's box is packed, for every unit of the model; and of
// anchors it is said what each will carry, so that the one in the bag is compared with its
// assessment (statics, src/domain/mechanical; there is no generic anchor).
import { wallLoadSteps } from "../mechanical/wall-load.ts";
import type { KitItem, KitModel, KitNote, KitUnit } from "./kit-item.ts";
import type { ModelKitLine } from "./line.ts";

/**
 * The lines of the models on the job, each times the units of it that are to be carried there.
 * @returns what to pack, and what comes in the makers' boxes; keys `model:<code>:<line>`
 */
export function modelKit(
  models: readonly KitModel[],
  units: readonly KitUnit[],
): { toPack: KitItem[]; inTheBox: KitItem[] } {
  const lines = models.flatMap((model) => {
    const count = units.filter((unit) => unit.modelCode === model.code && !unit.atSite).length;
    return count === 0 ? [] : model.kit.map((line) => ({ line, item: itemOf(model, line, count) }));
  });
  const items = (supplied: boolean) =>
    lines.filter(({ line }) => line.supplied === supplied).map(({ item }) => item);
  return { toPack: items(false), inTheBox: items(true) };
}

function itemOf(model: KitModel, line: ModelKitLine, count: number): KitItem {
  const { id, category, name, amount, countedIn, stockCode, note, source } = line;
  return {
    key: `model:${model.code}:${id}`,
    category,
    name,
    amount: thousandths(amount * count),
    countedIn,
    perPerson: false,
    ...(stockCode === undefined ? {} : { stockCode }),
    notes: [
      ...(note === undefined ? [] : [{ code: "text" as const, text: note }]),
      ...(category === "anchor" && countedIn === "piece" ? loadNotes(model, amount) : []),
    ],
    sources: [source],
  };
}

/** What one anchor of one unit carries; nothing where the model does not say what it weighs. */
function loadNotes({ attributes }: KitModel, anchors: number): KitNote[] {
  const massKg = attributes.massKg;
  if (typeof massKg !== "number" || !(massKg > 0)) return [];
  const names = ["topAnchors", "centreOfGravityMm", "leverArmMm"] as const;
  const missing = names.filter((name) => typeof attributes[name] !== "number");
  const figure = (name: (typeof names)[number]) => Number(attributes[name] ?? 1);
  const { shearEach, tensionEach } = wallLoadSteps({
    massKg,
    anchors,
    topAnchors: figure("topAnchors"),
    eccentricityM: figure("centreOfGravityMm") / 1000,
    leverArmM: figure("leverArmMm") / 1000,
  });
  return [
    { code: "shear-each", newtons: Math.round(shearEach.result) },
    missing.length > 0
      ? { code: "tension-unknown", missing }
      : { code: "tension-each", newtons: Math.round(tensionEach.result) },
  ];
}

/** Rounded to three places, as stock is counted: 0.1 m three times is 0.3 m. */
export function thousandths(amount: number): number {
  return Math.round(amount * 1000) / 1000;
}
