// What a switch map's shape alone cannot show: names that point to nothing, levers used twice, and
// bank sizes for which it gives no answer or the same address twice.
import { bankSettings } from "./bank-settings.ts";
import type { Protocol, Switch, SwitchMap } from "./switch-map.ts";

/** Problems of a map, each a sentence; an empty list where it is sound. */
export function mapProblems(map: SwitchMap): string[] {
  const names = [...doubled(map.switches, "switch"), ...doubled(map.protocols, "protocol")];
  const structure = [...names, ...map.switches.flatMap(doubledPositions)];
  for (const protocol of map.protocols) structure.push(...protocolProblems(map, protocol));
  // Trying a map whose names do not fit would only repeat the same problem for every bank size.
  return structure.length > 0 ? structure : map.protocols.flatMap((one) => triedOut(map, one));
}

function doubled(list: readonly { id: string }[], word: string): string[] {
  const ids = list.map(({ id }) => id);
  return ids.filter((id, at) => ids.indexOf(id) !== at).map((id) => `${word} ${id} is named twice`);
}

function doubledPositions(one: Switch): string[] {
  if (one.kind !== "rotary") return [];
  return new Set(one.positions).size === one.positions.length
    ? []
    : [`switch ${one.id} prints one position twice`];
}

function protocolProblems(map: SwitchMap, protocol: Protocol): string[] {
  const { minimum, maximum } = protocol.packCount;
  const range =
    minimum > maximum
      ? [`protocol ${protocol.id}: the pack count runs from ${minimum} down to ${maximum}`]
      : [];
  const named =
    protocol.settings.form === "rows"
      ? protocol.settings.rows.flatMap((row) => Object.keys(row.settings))
      : protocol.settings.parts.map((part) => part.switch);
  const unknown = [...new Set([...named, protocol.address.switch])]
    .filter((id) => !map.switches.some((one) => one.id === id))
    .map((id) => `protocol ${protocol.id} names the switch ${id}, which the map does not have`);
  return [...range, ...unknown, ...leverProblems(map, protocol), ...addressProblems(map, protocol)];
}

/** Every lever of a DIP switch is set by one part of a formula, no more and no less. */
function leverProblems(map: SwitchMap, protocol: Protocol): string[] {
  if (protocol.settings.form !== "formula") return [];
  const { parts } = protocol.settings;
  return map.switches.flatMap((one) => {
    const own = parts.filter((part) => part.switch === one.id);
    const label = `protocol ${protocol.id}, switch ${one.id}`;
    if (one.kind !== "dip") {
      return own.length === 1 ? [] : [`${label}: is set by ${own.length} parts, not by one`];
    }
    const all = Array.from({ length: one.levers }, (_, at) => at + 1);
    const used = own.flatMap((part) => part.levers ?? all);
    const wrong = [...new Set([...all, ...used])].filter(
      (lever) => !all.includes(lever) || used.filter((other) => other === lever).length !== 1,
    );
    return wrong.map((lever) => `${label}: lever ${lever} is not set exactly once`);
  });
}

function addressProblems(map: SwitchMap, protocol: Protocol): string[] {
  const { levers, switch: id } = protocol.address;
  const one = map.switches.find((each) => each.id === id);
  if (!levers || !one) return [];
  const count = one.kind === "dip" ? one.levers : 0;
  const sound = levers.every((lever) => lever <= count) && new Set(levers).size === levers.length;
  return sound ? [] : [`protocol ${protocol.id}: ${id} does not have the address levers ${levers}`];
}

function triedOut(map: SwitchMap, protocol: Protocol): string[] {
  const { minimum, maximum } = protocol.packCount;
  return Array.from({ length: maximum - minimum + 1 }, (_, at) => minimum + at).flatMap((packs) => {
    const tried = bankSettings(map, protocol.id, packs);
    return tried.ok ? [] : [`protocol ${protocol.id}, ${packs} packs: ${tried.problem}`];
  });
}
