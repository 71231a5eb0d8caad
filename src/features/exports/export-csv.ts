import { forReading, inFirm } from "../../db/scope.ts";
import { CSV_MARK, csvLines } from "../../web/csv.ts";
import { dueCsv } from "../firmware/due-csv.ts";
import type { DueFilter } from "../firmware/due-schemas.ts";
import type { ExportAsk, ExportList } from "./list.ts";
import { addExport, endExport } from "./store.ts";

export interface Taker extends ExportAsk {
  personId: string;
}

/**
 * The list as CSV, a page in memory at a time. That it leaves is on record before its first line.
 */
export async function exportCsv<Filter extends object>(
  taker: Taker,
  list: ExportList<Filter>,
  filter: Filter,
): Promise<AsyncGenerator<string>> {
  const id = await record(taker, list.name, filter);
  return (async function* () {
    let count = 0;
    yield CSV_MARK + csvLines([list.columns]);
    for await (const rows of list.pages({ ...taker, db: forReading(taker.db) }, filter)) {
      if (rows.length > 0) yield csvLines(rows);
      count += rows.length;
    }
    await inFirm(taker.db, taker.firmId, (tx) => endExport(tx, id, count));
  })();
}

/** The due list has a file of its own, a line a unit. */
export async function exportDueCsv(
  taker: Taker,
  filter: DueFilter,
): Promise<AsyncGenerator<string>> {
  await record(taker, "due", filter);
  return dueCsv(taker.db, { firmId: taker.firmId, filter, now: taker.now });
}

const record = (
  { db, firmId, personId, now }: Taker,
  list: string,
  filter: object,
): Promise<string> => inFirm(db, firmId, (tx) => addExport(tx, { list, filter, personId }, now));
