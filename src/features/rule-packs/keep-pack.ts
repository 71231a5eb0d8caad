import { createHash } from "node:crypto";
import type { FirmTransaction } from "../../db/scope.ts";
import { canonicalize } from "../../domain/evidence/canonical-json.ts";
import type { RulePack } from "../../domain/siting/rule-pack.ts";
import { invalid, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { builtInPack } from "./built-in.ts";
import {
  addPack,
  countPacks,
  findPackHead,
  findPackVersion,
  type PackContent,
  replacePack,
} from "./store.ts";

/** A firm works in a few regions; the list of its packs is read whole. */
export const OWN_PACKS_MOST = 200;

interface Saving {
  pack: RulePack;
  personId: string;
}

export async function takeOnPack(tx: FirmTransaction, saving: Saving, now: Date): Promise<void> {
  const { id } = saving.pack;
  if (builtInPack(id)) throw idTaken(id);
  if ((await countPacks(tx)) >= OWN_PACKS_MOST) {
    const detail = `Your firm has ${OWN_PACKS_MOST} rule packs. Replace one of them (PUT) instead.`;
    throw new Problem("conflict", detail);
  }
  if (!(await addPack(tx, contentOf(saving, now)))) throw idTaken(id);
}

/** Keeps the new document as the next version; the same document again changes nothing. */
export async function changePack(
  tx: FirmTransaction,
  code: string,
  version: number,
  saving: Saving,
  now: Date,
): Promise<void> {
  if (builtInPack(code)) {
    const detail = `${code} comes with the product and stays as it is.`;
    throw new Problem("conflict", `${detail} Add your own under another id.`);
  }
  const head = await findPackHead(tx, code);
  if (!head) throw noSuchPack(code);
  if (saving.pack.id !== code) {
    throw invalid("/body/id", `must stay ${code}; add a pack of another id by POST`);
  }
  const content = contentOf(saving, now);
  const current = await findPackVersion(tx, head.id, head.version);
  if (current?.sha256 === content.sha256) return;
  if (!(await replacePack(tx, head.id, version, content))) throw editedMeanwhile();
}

export const noSuchPack = (code: string): Problem =>
  new Problem("not-found", `There is no rule pack ${code}, or it has no such version.`);

const idTaken = (id: string): Problem =>
  new Problem("conflict", `There is a rule pack ${id} already. Choose another id.`);

function contentOf({ pack, personId }: Saving, now: Date): PackContent {
  const sha256 = createHash("sha256").update(canonicalize(pack)).digest("hex");
  return { document: pack, sha256, personId, createdAt: now };
}
