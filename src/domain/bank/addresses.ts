// Two packs of one address answer together and are taken for one; the inverter then sees a bank
// smaller than it is. Blueprint, "Bank settings": addresses are checked to be unique.

export interface AddressCheck {
  /** No clash and no gap. */
  ok: boolean;
  clashes: { address: number; positions: number[] }[];
  /** Addresses between the lowest and the highest that no pack has. */
  gaps: number[];
  sentences: string[];
}

/**
 * Finds packs that share an address and addresses that are missing in between.
 * @param addresses address of each pack, in order of pack position from 1; whole numbers as read
 *   off switches, so at most twelve binary digits.
 * @param places position of each pack, where not every pack was read.
 */
export function checkAddresses(
  addresses: readonly number[],
  places: readonly number[] = addresses.map((_, at) => at + 1),
): AddressCheck {
  const positionsByAddress = new Map<number, number[]>();
  addresses.forEach((address, at) => {
    const position = places[at] ?? at + 1;
    positionsByAddress.set(address, [...(positionsByAddress.get(address) ?? []), position]);
  });
  const held = [...positionsByAddress.keys()].sort((a, b) => a - b);
  const clashes = held.flatMap((address) => {
    const positions = positionsByAddress.get(address) ?? [];
    return positions.length > 1 ? [{ address, positions }] : [];
  });
  const gaps = held.flatMap((address, at) => {
    const before = held[at - 1] ?? address;
    return Array.from(
      { length: Math.max(0, address - before - 1) },
      (_, step) => before + 1 + step,
    );
  });
  const sentences = [
    ...clashes.map(
      ({ address, positions }) => `Packs ${listed(positions)} all have address ${address}.`,
    ),
    ...gaps.map((gap) => gapSentence(gap, held, positionsByAddress)),
  ];
  return { ok: sentences.length === 0, clashes, gaps, sentences };
}

function gapSentence(
  gap: number,
  held: readonly number[],
  positions: ReadonlyMap<number, readonly number[]>,
): string {
  const name = (address: number | undefined) =>
    address === undefined ? "" : `${packs(positions.get(address) ?? [])} (address ${address})`;
  const before = held.filter((address) => address < gap).at(-1);
  const after = held.find((address) => address > gap);
  return `No pack has address ${gap}, between ${name(before)} and ${name(after)}.`;
}

function packs(positions: readonly number[]): string {
  return `${positions.length === 1 ? "pack" : "packs"} ${listed(positions)}`;
}

function listed(numbers: readonly number[]): string {
  const last = numbers.at(-1);
  return numbers.length < 2 ? `${last}` : `${numbers.slice(0, -1).join(", ")} and ${last}`;
}
