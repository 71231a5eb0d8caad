import { inFirm } from "../../db/scope.ts";
import { matchColumns } from "../../domain/tables/match-columns.ts";
import { keepImportFile } from "./import-folder.ts";
import {
  move,
  NOT_RUNNING,
  type Place,
  readable,
  requireImport,
  requireState,
} from "./import-state.ts";
import { inspectFile } from "./inspect-file.ts";
import { kindOf } from "./kinds.ts";
import { type ImportRow, rememberedColumns } from "./store.ts";

/** Takes the file in, and finds out how it is written and what its columns are. */
export async function receiveFile(
  { db, dataFolder, firmId }: Place,
  importId: string,
  source: AsyncIterable<Uint8Array>,
): Promise<ImportRow> {
  const row = await inFirm(db, firmId, (tx) => requireImport(tx, importId));
  requireState(row, NOT_RUNNING);
  const file = { dataFolder, firmId, importId };
  const { encoding, bytes, sha256 } = await keepImportFile(file, source);
  const seen = await readable(() => inspectFile(file, encoding));
  return inFirm(db, firmId, async (tx) => {
    const remembered = await rememberedColumns(tx, row.kind);
    const columns = matchColumns(seen.headers, kindOf(row.kind).fields, remembered);
    const facts = { ...seen, columns, encoding, bytes: BigInt(bytes), sha256 };
    const fresh = { constants: {}, figures: {}, problem: null, checkedAt: null };
    await move(tx, importId, NOT_RUNNING, { ...facts, ...fresh, state: "uploaded" });
    return requireImport(tx, importId);
  });
}
