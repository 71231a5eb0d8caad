// Places where a battery may not stand at all (AS/NZS 5139 4.2.2, PAS 63100 6.5, IRC R328.4), and
// the temperatures that a place may reach.
import type { Decision } from "./finding.ts";
import type { RuleOf } from "./rule-pack.ts";
import type { SurveyUnit } from "./survey.ts";
import type { SurveyIndex } from "./survey-index.ts";
import { plainWords } from "./vocabulary.ts";

/** One decision for each battery: whether its place is forbidden. */
export function judgeForbiddenRoom(index: SurveyIndex, rule: RuleOf<"forbidden-room">): Decision[] {
  return index.batteries.map((unit) => judgeRoom(index, rule, unit));
}

function judgeRoom(index: SurveyIndex, rule: RuleOf<"forbidden-room">, unit: SurveyUnit): Decision {
  const room = index.roomOf(unit);
  const between = [unit.id, room.id];
  const kinds = room.kinds.map(plainWords).join(", ");
  const where = `${unit.name} stands in ${room.name} (${kinds})`;
  const hit = room.kinds.find((kind) => rule.forbidden.includes(kind));
  if (hit) {
    const sentence = `${where}: a battery may not stand in a place of the kind ${plainWords(hit)}.`;
    return { verdict: "breaks", between, sentence };
  }
  if (room.kinds.includes("unknown")) {
    const sentence = `Say what kind of place ${room.name} is, where ${unit.name} stands.`;
    return { verdict: "needs-survey", between, sentence };
  }
  const { permitted } = rule;
  if (permitted && !room.kinds.some((kind) => permitted.includes(kind))) {
    const sentence =
      `${where}: not one of the places that the rule names ` +
      `(${permitted.map(plainWords).join(", ")}).`;
    return { verdict: "breaks", between, sentence };
  }
  return { verdict: "meets", between, sentence: `${where}: not a forbidden place.` };
}

/** Ambient range of the place against the rule's; °C. */
export function judgeAmbient({ survey }: SurveyIndex, rule: RuleOf<"ambient">): Decision[] {
  const needed = `${rule.minimumC} °C to ${rule.maximumC} °C`;
  const { ambient } = survey;
  if (!ambient) {
    const sentence = `The survey gives no ambient temperatures; ${needed} is allowed.`;
    return [{ verdict: "needs-survey", between: [], sentence }];
  }
  const marginC = Math.min(ambient.minimumC - rule.minimumC, rule.maximumC - ambient.maximumC);
  const coldest = ambient.minimumC - rule.minimumC === marginC;
  const sentence =
    `The place reaches ${ambient.minimumC} °C to ${ambient.maximumC} °C; ${needed} is ` +
    "allowed.";
  return [
    {
      verdict: marginC >= 0 ? "meets" : "breaks",
      between: [],
      sentence,
      measured: coldest ? ambient.minimumC : ambient.maximumC,
      required: coldest ? rule.minimumC : rule.maximumC,
      margin: marginC,
      unit: "°C",
      bound: coldest ? "minimum" : "maximum",
    },
  ];
}
