// What to set on each pack of a bank. The map is the product model's, taken from the maker's
// instructions; what it does not speak of is refused with the way out, never guessed.
import type { FirmTransaction } from "../../db/scope.ts";
import { checkAddresses } from "../../domain/bank/addresses.ts";
import { bankSettings } from "../../domain/bank/bank-settings.ts";
import { parseSwitchMap } from "../../domain/bank/parse-switch-map.ts";
import type { PackSettings } from "../../domain/bank/settings.ts";
import type { Protocol, SwitchMap } from "../../domain/bank/switch-map.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { findBank } from "./store.ts";

export type BankRow = NonNullable<Awaited<ReturnType<typeof findBank>>>;

export interface SetPack extends PackSettings {
  unitId: string;
  serial: string;
  address: number;
}

export interface SetBank {
  map: SwitchMap;
  protocol: Protocol;
  packs: SetPack[];
  check: ReturnType<typeof checkAddresses>;
}

export async function readBankRow(tx: FirmTransaction, id: string): Promise<BankRow> {
  const row = await findBank(tx, id);
  if (!row) throw notFound("bank");
  return row;
}

/** Settings of every pack of the bank under a protocol, the bank's own where none is named. */
export function settingsOf(bank: BankRow, wanted: string | undefined): SetBank | Problem {
  const map = mapOf(bank);
  if (map instanceof Problem) return map;
  const places = placesProblem(bank);
  if (places) return places;
  const protocol = protocolOf(map, wanted ?? bank.protocol ?? undefined);
  if (protocol instanceof Problem) return protocol;
  const computed = bankSettings(map, protocol.id, bank.units.length);
  if (!computed.ok) return new Problem("conflict", `${bank.name}: ${computed.problem}.`);
  const { addresses } = computed;
  const packs = bank.units.flatMap(({ id, serial }, at): SetPack[] => {
    const [pack, address] = [computed.packs[at], addresses[at]];
    return pack && address !== undefined ? [{ ...pack, unitId: id, serial, address }] : [];
  });
  return { map, protocol, packs, check: checkAddresses(addresses) };
}

/** The map of the one product model that the bank is made of. */
export function mapOf(bank: BankRow): SwitchMap | Problem {
  const codes = [...new Set(bank.units.map(({ model }) => model.code))];
  const [unit] = bank.units;
  if (!unit) {
    const detail = `${bank.name} has no packs yet. Say which (PUT /api/v1/banks/${bank.id}/packs).`;
    return new Problem("conflict", detail);
  }
  if (codes.length > 1) {
    const detail =
      `${bank.name} holds packs of ${codes.join(" and ")}; a switch map speaks of one product ` +
      "model. Follow the maker's instructions for a mixed bank.";
    return new Problem("conflict", detail);
  }
  if (unit.model.switchMap === null) {
    const detail =
      `Product model ${unit.model.code} has no switch map. Add it from the maker's instructions ` +
      `(PATCH /api/v1/product-models/${unit.model.id}).`;
    return new Problem("conflict", detail);
  }
  const parsed = parseSwitchMap(unit.model.switchMap);
  if (!parsed.ok) throw new Error(`a stored switch map cannot be read: ${parsed.problem}`);
  return parsed.map;
}

/** The bank's packs come in the order of their places. */
function placesProblem({ id, name, units }: BankRow): Problem | undefined {
  if (units.every(({ bankPosition }, at) => bankPosition === at + 1)) return undefined;
  const detail =
    `${name}: the places of its ${units.length} packs do not run from 1 to ${units.length}. Give ` +
    `each pack its place (PUT /api/v1/banks/${id}/packs).`;
  return new Problem("conflict", detail);
}

function protocolOf(map: SwitchMap, wanted: string | undefined): Protocol | Problem {
  const [only, ...others] = map.protocols;
  if (wanted === undefined && only && others.length === 0) return only;
  const protocol = map.protocols.find(({ id }) => id === wanted);
  if (protocol) return protocol;
  const known = map.protocols.map(({ id }) => id).join(", ");
  const fault = wanted === undefined ? "is needed" : `${wanted} is not in the switch map`;
  return invalid("/query/protocol", `${fault}: ${map.productModel} has ${known}`);
}
