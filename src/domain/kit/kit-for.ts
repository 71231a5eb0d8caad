// Requirement: the pick list of a job follows from its plan, the models of its units and, where
// there is one, the survey of its site: the same job gives the same list on every machine, and
// nobody has to remember it. What cannot be known from them is said as a gap, not guessed.
import type { Plan } from "../plan/schema.ts";
import type { Survey } from "../siting/survey.ts";
import { modelKit, thousandths } from "./fixings.ts";
import { surveyKit } from "./from-survey.ts";
import {
  inPackingOrder,
  type KitGap,
  type KitItem,
  type KitModel,
  type KitUnit,
} from "./kit-item.ts";
import type { PlanKitLine } from "./line.ts";
import { drillingKit, electricalKit, liftingKit } from "./protection.ts";
import { planTools } from "./tools.ts";

export interface Kit {
  /** What is packed, category by category. */
  items: readonly KitItem[];
  /** What the makers supply with the units: not packed, looked for when a box is opened. */
  inTheBox: readonly KitItem[];
  gaps: readonly KitGap[];
}

/**
 * What a crew takes to a job.
 * @param models those of the units, each once
 * @param units of the job, in its order; those that stand at the site are not carried there
 * @param survey the site's last one, left out where there is none
 */
export function kitFor(
  plan: Plan,
  models: readonly KitModel[],
  units: readonly KitUnit[],
  survey?: Survey,
): Kit {
  const { toPack, inTheBox } = modelKit(models, units);
  const planned = (plan.kit ?? []).flatMap((line) => planItem(plan, line, units));
  const lifting = liftingKit(models, units);
  const carriesAny = units.some(({ atSite }) => !atSite);
  const surveyed = survey && carriesAny ? surveyKit(survey) : { items: [], gaps: [] };
  const packed = [...toPack, ...planned, ...surveyed.items];
  const items = [
    ...units.filter(({ atSite }) => !atSite).map(unitItem),
    ...packed,
    ...planTools(plan, models, units),
    ...lifting.items,
    ...drillingKit(packed),
    ...electricalKit(plan),
  ];
  const noSurvey: KitGap[] = carriesAny && !survey ? [{ code: "no-survey" }] : [];
  const gaps = [...noSurvey, ...surveyed.gaps, ...lifting.gaps];
  return { items: inPackingOrder(items), inTheBox: inPackingOrder(inTheBox), gaps };
}

function unitItem({ id, serial, modelCode }: KitUnit): KitItem {
  const counted = { amount: 1, countedIn: "piece" as const, perPerson: false };
  const name = `${modelCode} ${serial}`;
  return { key: `unit:${id}`, category: "unit", name, ...counted, notes: [], sources: [] };
}

/** Nothing where the plan asks for it per unit of a kind that the job has none of. */
function planItem(plan: Plan, line: PlanKitLine, units: readonly KitUnit[]): KitItem[] {
  const { id, category, name, amount, countedIn, per, ofKind, stockCode, note, source } = line;
  const counted = units.filter(({ kind }) => ofKind === undefined || ofKind === kind).length;
  const times = per === "unit" ? counted : 1;
  if (times === 0) return [];
  return [
    {
      key: `plan:${id}`,
      category,
      name,
      amount: thousandths(amount * times),
      countedIn,
      perPerson: per === "person",
      ...(stockCode === undefined ? {} : { stockCode }),
      notes: note === undefined ? [] : [{ code: "text", text: note }],
      sources: [source, plan.title],
    },
  ];
}
