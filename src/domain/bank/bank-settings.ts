// The switch positions of every pack in a bank of n packs under an inverter protocol. Settings are
// made with the bank isolated and proven dead; the maker's instructions prevail over this table.
import { checkAddresses } from "./addresses.ts";
import { settingsByFormula } from "./formula.ts";
import { isPositionOf, positionValue } from "./position.ts";
import { settingsByRows } from "./rows.ts";
import type { BankSettings, PackSettings, Setting } from "./settings.ts";
import type { Protocol, Switch, SwitchMap } from "./switch-map.ts";

export const BANK_CAUTION =
  "Isolate, lock off and prove dead before touching switches. The maker's instructions " +
  "prevail; local codes and licensed practice apply.";

/**
 * Settings of each pack, and its address as read back off the switches.
 * @param packCount whole number of packs; refused outside the protocol's range.
 */
export function bankSettings(map: SwitchMap, protocolId: string, packCount: number): BankSettings {
  const protocol = map.protocols.find(({ id }) => id === protocolId);
  if (!protocol) {
    const known = map.protocols.map(({ id }) => id).join(", ");
    return {
      ok: false,
      problem: `${map.productModel} has no protocol ${protocolId}; it has ${known}`,
    };
  }
  const { minimum, maximum } = protocol.packCount;
  if (!Number.isInteger(packCount) || packCount < minimum || packCount > maximum) {
    const problem = `${protocol.name} takes ${minimum} to ${maximum} packs, not ${packCount}`;
    return { ok: false, problem };
  }
  const packs: PackSettings[] = [];
  for (let position = 1; position <= packCount; position += 1) {
    const settings = packSettings(map, protocol, position, packCount);
    if (!settings.ok) return settings;
    packs.push({ position, settings: settings.settings });
  }
  const addresses = packs.map((pack) => addressOf(map, protocol, pack) ?? -1);
  const check = checkAddresses(addresses);
  if (check.clashes.length > 0 || (check.gaps.length > 0 && !protocol.gapsAllowed)) {
    return { ok: false, problem: check.sentences.join(" ") };
  }
  return { ok: true, packs, addresses };
}

/**
 * The address that a pack's switches spell, whether computed or found on site.
 * @returns nothing where the switch was not read or has no such position.
 */
export function addressOf(
  map: SwitchMap,
  protocol: Protocol,
  pack: PackSettings,
): number | undefined {
  const one = map.switches.find(({ id }) => id === protocol.address.switch);
  const setting = pack.settings.find((each) => each.switch === protocol.address.switch);
  if (!one || !setting || !isPositionOf(one, setting.position)) return undefined;
  return positionValue(one, setting.position, protocol.address.levers);
}

function packSettings(
  map: SwitchMap,
  protocol: Protocol,
  position: number,
  packCount: number,
): { ok: true; settings: Setting[] } | { ok: false; problem: string } {
  const place = { position, packCount };
  const positions =
    protocol.settings.form === "rows"
      ? settingsByRows(protocol.settings.rows, place)
      : settingsByFormula(protocol.settings.parts, map.switches, place);
  if (!positions.ok) return positions;
  const problem = map.switches
    .map((one) => settingProblem(one, positions.byId.get(one.id), position))
    .find((each) => each !== undefined);
  if (problem !== undefined) return { ok: false, problem };
  const settings = map.switches.map((one) => ({
    switch: one.id,
    position: positions.byId.get(one.id) ?? "",
  }));
  return { ok: true, settings };
}

function settingProblem(
  one: Switch,
  position: string | undefined,
  pack: number,
): string | undefined {
  if (position === undefined) return `pack ${pack}: the map does not say how ${one.label} is set`;
  if (isPositionOf(one, position)) return undefined;
  return `pack ${pack}: ${one.label} has no position ${position}`;
}
