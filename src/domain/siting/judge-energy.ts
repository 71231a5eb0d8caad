// Stored energy: one unit, and all units in one kind of place (NFPA 855 ch. 15, 15.7; IRC R328.5).
// Energies are added in whole milliwatt-hours, because sums in floating point may miss a limit.
import { atMost, type Decision, verdictOf } from "./finding.ts";
import type { RuleOf } from "./rule-pack.ts";
import type { SurveyUnit } from "./survey.ts";
import { roomApplies, type SurveyIndex } from "./survey-index.ts";
import { plainWords } from "./vocabulary.ts";

/** One decision for each battery; kWh. */
export function judgeUnitEnergy(index: SurveyIndex, rule: RuleOf<"unit-energy">): Decision[] {
  return index.batteries.map((unit): Decision => {
    const between = [unit.id];
    if (unit.energyKWh === undefined) {
      const sentence = `Give the stored energy of ${unit.name} from its rating plate.`;
      return { verdict: "needs-survey", between, sentence };
    }
    if (unit.energyKWh <= rule.appliesAboveKWh) {
      const sentence =
        `${unit.name} stores ${unit.energyKWh} kWh; the rule begins above ` +
        `${rule.appliesAboveKWh} kWh.`;
      return { verdict: "not-applicable", between, sentence };
    }
    const measure = atMost(unit.energyKWh, rule.maximumKWh, "kWh");
    const sentence =
      `${unit.name} stores ${unit.energyKWh} kWh; at most ${rule.maximumKWh} kWh is ` +
      "allowed in one unit.";
    return { ...measure, verdict: verdictOf(measure), between, sentence };
  });
}

/** One decision for the whole kind of place: the sum over every battery in it; kWh. */
export function judgeAggregateEnergy(
  index: SurveyIndex,
  rule: RuleOf<"aggregate-energy">,
): Decision[] {
  const inPlace = (answer: string) => (unit: SurveyUnit) =>
    roomApplies(index.roomOf(unit), rule.rooms) === answer;
  const units = index.batteries.filter(inPlace("yes"));
  const unplaced = index.batteries.filter(inPlace("unknown"));
  const places = rule.rooms.map(plainWords).join(", ");
  if (units.length + unplaced.length === 0) {
    const sentence = `No battery stands in: ${places}.`;
    return [{ verdict: "not-applicable", between: [], sentence }];
  }
  const unrated = units.filter((unit) => unit.energyKWh === undefined);
  const sumKWh =
    units.reduce((mWh, unit) => mWh + Math.round((unit.energyKWh ?? 0) * 1e6), 0) / 1e6;
  const measure = atMost(sumKWh, rule.maximumKWh, "kWh");
  const between = [...units, ...unplaced].map((unit) => unit.id);
  const stored =
    `${units.length === 1 ? "1 battery stores" : `${units.length} batteries store`} ` +
    `${sumKWh} kWh in: ${places}; at most ${rule.maximumKWh} kWh is allowed`;
  const open = [
    ...unrated.map((unit) => `give the energy of ${unit.name}`),
    ...unplaced.map((unit) => `say where ${unit.name} stands`),
  ];
  if (verdictOf(measure) === "meets" && open.length > 0) {
    const sentence = `${stored}, and this is still open: ${open.join("; ")}.`;
    return [{ verdict: "needs-survey", between, sentence }];
  }
  return [{ ...measure, verdict: verdictOf(measure), between, sentence: `${stored}.` }];
}
