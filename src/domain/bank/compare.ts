// What was found on the switches against what the map asks for, in sentences an installer can act
// on: which pack, which switch, which lever. A switch that was not read is a difference too.

import { isPositionOf } from "./position.ts";
import type { PackSettings } from "./settings.ts";
import type { Switch, SwitchMap } from "./switch-map.ts";

export interface Difference {
  /** Pack position, from 1. */
  position: number;
  /** Id of the switch; nothing where the whole pack is missing or should not be there. */
  switch?: string;
  sentence: string;
}

/** Differences in order of pack and switch; an empty list where everything is as it should be. */
export function compareSettings(
  map: SwitchMap,
  expected: readonly PackSettings[],
  found: readonly PackSettings[],
): Difference[] {
  const surplus = found.filter(
    (pack) => !expected.some(({ position }) => position === pack.position),
  );
  return [
    ...expected.flatMap((pack) => comparePack(map, pack, found)),
    ...surplus.map(({ position }) => ({
      position,
      sentence: `Pack ${position} is not part of this bank of ${expected.length}.`,
    })),
  ];
}

function comparePack(
  map: SwitchMap,
  expected: PackSettings,
  found: readonly PackSettings[],
): Difference[] {
  const { position } = expected;
  const own = found.filter((pack) => pack.position === position);
  const [first] = own;
  if (!first) return [{ position, sentence: `Pack ${position} was not read.` }];
  if (own.length > 1)
    return [{ position, sentence: `Pack ${position} was read ${own.length} times.` }];
  return expected.settings.flatMap((setting) => {
    const one = map.switches.find(({ id }) => id === setting.switch);
    if (!one) return [];
    const reading = first.settings.find((each) => each.switch === one.id)?.position;
    return differencesOf(one, setting.position, reading).map((words) => ({
      position,
      switch: one.id,
      sentence: `Pack ${position}, ${one.label}: ${words}.`,
    }));
  });
}

function differencesOf(one: Switch, expected: string, found: string | undefined): string[] {
  if (found === undefined) return [`not read, must be ${expected}`];
  if (!isPositionOf(one, found))
    return [`“${found}” is no position of this switch, must be ${expected}`];
  if (found === expected) return [];
  if (one.kind !== "dip") return [`is ${found}, must be ${expected}`];
  const word = (digit: string | undefined) => (digit === "1" ? "on" : "off");
  return [...expected].flatMap((digit, at) =>
    digit === found[at] ? [] : [`lever ${at + 1} is ${word(found[at])}, must be ${word(digit)}`],
  );
}
