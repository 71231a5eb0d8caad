// Requirement: what the surveyor measured is not measured again by guessing in the yard. A run of
// cable is at least the way along and up the wall between two edges; what is drawn never makes it
// longer than it is, so the figure is a least one and says so.
import { gapBetween } from "../siting/geometry.ts";
import type { Survey, SurveyPlane, SurveyUnit } from "../siting/survey.ts";
import { thousandths } from "./fixings.ts";
import type { KitGap, KitItem, KitNote } from "./kit-item.ts";

/** Above this a person does not work at arm's height (common practice, no source). */
const REACH_MM = 1_900;

export interface SurveyKit {
  items: KitItem[];
  gaps: KitGap[];
}

/**
 * Cable from each battery to the nearest equipment on its wall, a step, a board; and what is open.
 */
export function surveyKit(survey: Survey): SurveyKit {
  const batteries = survey.units.filter(({ role }) => role === "battery");
  const runs = batteries.map((battery) => ({ battery, to: nearest(battery, survey) }));
  const alone = runs.flatMap(({ battery, to }): KitGap[] =>
    to === undefined ? [{ code: "not-on-one-wall", unit: battery.name }] : [],
  );
  const walls = survey.planes.filter(
    ({ id, view }) => view === "elevation" && batteries.some(({ planeId }) => planeId === id),
  );
  const open = walls
    .filter(({ wall }) => wall?.combustible === undefined)
    .map(({ name }): KitGap => ({ code: "wall-not-surveyed", place: name }));
  return {
    items: [...cableRuns(runs, survey), ...boards(walls, survey), ...steps(walls, survey)],
    gaps: [...alone, ...open],
  };
}

interface Run {
  battery: SurveyUnit;
  to: { unit: SurveyUnit; lengthMm: number } | undefined;
}

function nearest(battery: SurveyUnit, { units }: Survey): Run["to"] {
  const others = units.filter(
    ({ role, planeId }) => role === "equipment" && planeId === battery.planeId,
  );
  const runs = others.map((unit) => {
    const { acrossMm, upMm } = gapBetween(battery, unit);
    return { unit, lengthMm: acrossMm + upMm };
  });
  return runs.toSorted((a, b) => a.lengthMm - b.lengthMm)[0];
}

function cableRuns(runs: readonly Run[], { title }: Survey): KitItem[] {
  const known = runs.flatMap(({ battery, to }) => (to ? [{ battery, ...to }] : []));
  if (known.length === 0) return [];
  const notes = known.map(
    ({ battery, unit }): KitNote => ({ code: "least-run", from: battery.name, to: unit.name }),
  );
  const metres = known.reduce((sum, { lengthMm }) => sum + lengthMm, 0) / 1000;
  return [item("battery-cable", "Battery cable, at least", "cable", metres, "m", title, notes)];
}

function boards(walls: readonly SurveyPlane[], { title }: Survey): KitItem[] {
  const notes = walls
    .filter(({ wall }) => wall?.combustible === true)
    .map(({ name }): KitNote => ({ code: "combustible-wall", place: name }));
  if (notes.length === 0) return [];
  const name = "Non-combustible board behind the units";
  return [item("board", name, "consumable", notes.length, "piece", title, notes)];
}

function steps(walls: readonly SurveyPlane[], { title, units }: Survey): KitItem[] {
  const onWalls = units.filter(({ planeId }) => walls.some(({ id }) => id === planeId));
  const heightMm = Math.max(0, ...onWalls.map((unit) => unit.yMm + unit.heightMm));
  if (heightMm <= REACH_MM) return [];
  const notes = [{ code: "reach" as const, heightMm }];
  return [item("steps", "Working platform or steps", "tool", 1, "piece", title, notes)];
}

function item(
  id: string,
  name: string,
  category: KitItem["category"],
  amount: number,
  countedIn: KitItem["countedIn"],
  source: string,
  notes: KitNote[],
): KitItem {
  const key = `survey:${id}`;
  const counted = { amount: thousandths(amount), countedIn, perPerson: false };
  return { key, category, name, ...counted, notes, sources: [source] };
}
