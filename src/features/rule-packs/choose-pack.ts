import type { FirmTransaction } from "../../db/scope.ts";
import { parseRulePack, type RulePack } from "../../domain/siting/rule-pack.ts";
import { BUILT_IN_PACKS, builtInPack, builtInPackFor } from "./built-in.ts";
import { findPackHead, findPackVersion, listPackHeads } from "./store.ts";

/** A pack to judge by: one that comes with the product, or a version of the firm's own. */
export interface ChosenPack {
  pack: RulePack;
  /** Null for a pack that comes with the product: its id names the year. */
  version: number | null;
}

/** The pack of this id; of the firm's own the current version unless another is asked for. */
export async function findPack(
  tx: FirmTransaction,
  code: string,
  number?: number,
): Promise<ChosenPack | undefined> {
  const builtIn = builtInPack(code);
  if (builtIn) return number === undefined ? { pack: builtIn, version: null } : undefined;
  const head = await findPackHead(tx, code);
  const row = head && (await findPackVersion(tx, head.id, number ?? head.version));
  return row ? { pack: stored(row.document), version: row.number } : undefined;
}

/**
 * The pack that a place falls under: the firm's own for the region (by its id the first, where
 * there are several), else the one for the region or the country that comes with the product.
 */
export async function packForPlace(
  tx: FirmTransaction,
  place: { region: string; country?: string },
): Promise<ChosenPack | undefined> {
  const own = await listPackHeads(tx, { region: place.region });
  const [code] = own.map((head) => head.code).sort();
  if (code !== undefined) return findPack(tx, code);
  const pack = builtInPackFor(place);
  return pack && { pack, version: null };
}

/** Every pack by which a survey may be judged, for a person to choose from. */
export async function packChoices(tx: FirmTransaction): Promise<{ id: string; title: string }[]> {
  const own = (await listPackHeads(tx)).map(({ code, title }) => ({ id: code, title }));
  return [...BUILT_IN_PACKS.map(({ id, title }) => ({ id, title })), ...own];
}

function stored(document: unknown): RulePack {
  const parsed = parseRulePack(document);
  if (!parsed.ok) throw new Error(`a stored rule pack cannot be read: ${parsed.problem}`);
  return parsed.pack;
}
