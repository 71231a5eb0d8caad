import { checkAddresses } from "../../domain/bank/addresses.ts";
import { addressOf, bankSettings } from "../../domain/bank/bank-settings.ts";
import { compareSettings, type Difference } from "../../domain/bank/compare.ts";
import type { PackSettings } from "../../domain/bank/settings.ts";
import type { Protocol, SwitchMap } from "../../domain/bank/switch-map.ts";
import { invalid } from "../../errors.ts";

export interface Trial {
  map: SwitchMap;
  protocol: string;
  packCount: number;
  found?: PackSettings[] | undefined;
}

export interface TriedBank {
  map: SwitchMap;
  protocol: Protocol;
  packs: (PackSettings & { address: number })[];
  differences: Difference[];
  check: ReturnType<typeof checkAddresses>;
}

/** Settings by a map that is not kept; clashes are those found on site where that was given. */
export function trySettings({ map, protocol: id, packCount, found }: Trial): TriedBank {
  const protocol = map.protocols.find((one) => one.id === id);
  if (!protocol) {
    const known = map.protocols.map((one) => one.id).join(", ");
    throw invalid("/body/protocol", `is not in the map, which has ${known}`);
  }
  const computed = bankSettings(map, id, packCount);
  if (!computed.ok) throw invalid("/body/packCount", computed.problem);
  const { packs, addresses } = computed;
  return {
    map,
    protocol,
    packs: packs.map((pack, at) => ({ ...pack, address: addresses[at] ?? -1 })),
    differences: found ? compareSettings(map, packs, found) : [],
    check: found ? checkFound(map, protocol, found) : checkAddresses(addresses),
  };
}

/** A switch that was not read has no address; it is told among the differences. */
function checkFound(map: SwitchMap, protocol: Protocol, found: readonly PackSettings[]) {
  const read = found
    .toSorted((a, b) => a.position - b.position)
    .flatMap((pack) => {
      const address = addressOf(map, protocol, pack);
      return address === undefined ? [] : [{ position: pack.position, address }];
    });
  return checkAddresses(
    read.map(({ address }) => address),
    read.map(({ position }) => position),
  );
}
