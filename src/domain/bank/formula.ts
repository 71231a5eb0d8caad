// Settings given as a rule: "address = position − 1 in binary on levers 1 to 4, termination on the
// last pack only". Each part sets a whole switch or some levers of a DIP switch.

import { allLevers, binaryDigits } from "./position.ts";
import type { Positions } from "./settings.ts";
import type { PartRule, Protocol, Switch } from "./switch-map.ts";

type Part = Extract<Protocol["settings"], { form: "formula" }>["parts"][number];
interface Place {
  position: number;
  packCount: number;
}
type Text = { ok: true; text: string } | { ok: false; problem: string };

/** Positions by switch id for one pack; refused where a value does not fit on its switch. */
export function settingsByFormula(
  parts: readonly Part[],
  switches: readonly Switch[],
  place: Place,
): Positions {
  const byId = new Map<string, string>();
  for (const part of parts) {
    const one = switches.find(({ id }) => id === part.switch);
    if (!one) return { ok: false, problem: `the map has no switch ${part.switch}` };
    const levers = one.kind === "dip" ? (part.levers ?? allLevers(one.levers)) : [];
    const text = partText(part.rule, one, levers.length, place);
    if (!text.ok) return { ok: false, problem: `pack ${place.position}: ${text.problem}` };
    byId.set(
      one.id,
      one.kind === "dip" ? placed(byId.get(one.id), one, levers, text.text) : text.text,
    );
  }
  return { ok: true, byId };
}

/** Writes one digit a lever into the switch's pattern. */
function placed(
  before: string | undefined,
  one: Extract<Switch, { kind: "dip" }>,
  levers: readonly number[],
  digits: string,
): string {
  const pattern = [...(before ?? "0".repeat(one.levers))];
  levers.forEach((lever, at) => {
    pattern[lever - 1] = digits[at] ?? "0";
  });
  return pattern.join("");
}

function partText(rule: PartRule, one: Switch, levers: number, place: Place): Text {
  switch (rule.by) {
    case "fixed":
      return fixedText(rule.position, one, levers);
    case "position":
      return valueText(place.position + rule.add, one, levers);
    case "pack-count-on-first":
      return valueText(place.position === 1 ? place.packCount + rule.add : 0, one, levers);
    case "ends": {
      const first = place.position === 1 && rule.which !== "last";
      const last = place.position === place.packCount && rule.which !== "first";
      return valueText(first || last ? 1 : 0, one, levers);
    }
  }
}

function fixedText(position: string, one: Switch, levers: number): Text {
  if (one.kind !== "dip" || position.length === levers) return { ok: true, text: position };
  const problem = `${one.label}: ${position} is not one digit for each of ${levers} levers`;
  return { ok: false, problem };
}

function valueText(value: number, one: Switch, levers: number): Text {
  const tooFar: Text = { ok: false, problem: `${one.label} cannot show ${value}` };
  if (one.kind === "rotary") {
    const text = one.positions[value];
    return text === undefined ? tooFar : { ok: true, text };
  }
  if (one.kind === "termination") {
    return value === 0 || value === 1 ? { ok: true, text: value === 1 ? "on" : "off" } : tooFar;
  }
  const digits = binaryDigits(value, levers);
  return digits ? { ok: true, text: digits.join("") } : tooFar;
}
