import type { FirmTransaction } from "../../db/scope.ts";
import type { LikenessReason } from "../../domain/registry/likeness.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { readFirm } from "../firms/store.ts";
import { duplicatesOf } from "./candidates.ts";
import { listMerges, type MergeKind, mergedReferences } from "./store.ts";

export interface MergesQuestion {
  kind: MergeKind;
  subjectId: string;
  path: string;
  /** Look for records that may be of the same thing. */
  suggest: boolean;
}

const MERGES_MOST = 10;

/** What parts/merges.hbs shows: what became part of this record, and what may be the same. */
export async function mergesView(
  tx: FirmTransaction,
  { kind, subjectId, path, suggest }: MergesQuestion,
  language: ShownLanguage,
) {
  const { timeZone } = await readFirm(tx);
  const rows = (await listMerges(tx, subjectId, MERGES_MOST)).filter(
    ({ intoId }) => intoId === subjectId,
  );
  const references = await mergedReferences(
    tx,
    kind,
    rows.map(({ fromId }) => fromId),
  );
  return {
    merges: rows.map((row) => ({
      id: row.id,
      reference: references.get(row.fromId),
      who: row.person.name,
      when: dayAndTime(language, row.createdAt, timeZone),
      undoneBy: row.undoneBy?.name,
      undo: suggest && !row.undoneAt ? `${path}/merge-undo` : undefined,
    })),
    duplicates: suggest ? await shownDuplicates(tx, kind, subjectId, language) : [],
    mergePath: `${path}/merge`,
  };
}

export async function shownDuplicates(
  tx: FirmTransaction,
  kind: MergeKind,
  id: string,
  language: ShownLanguage,
) {
  const found = (await duplicatesOf(tx, kind, id)) ?? [];
  const word = (reason: LikenessReason) => say(language, `registry.alike.${reason}`);
  return found.map((one) => ({ ...one, why: one.reasons.map(word).join(", ") }));
}
