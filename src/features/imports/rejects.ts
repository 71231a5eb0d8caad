import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import { CSV_MARK, csvLines } from "../../web/csv.ts";
import { listBadRows } from "./rows-store.ts";
import type { ImportRow } from "./store.ts";

const A_PAGE = 1000;
const ADDED = ["line", "reason"] as const;

/** The bad rows as they came, with line and reason behind; mended, the file can be sent again. */
export async function* rejectsOf(
  db: Database,
  firmId: string,
  row: ImportRow,
): AsyncGenerator<string> {
  const headers = row.headers as string[];
  // A mended file has the two columns of the last time still; they are written anew.
  const kept = headers.flatMap((header, index) => (isAdded(header, index, headers) ? [] : [index]));
  const names = kept.map((index) => headers[index] ?? "");
  yield CSV_MARK + csvLines([[...names, ...ADDED]]);
  for (let after = 0; ; ) {
    const rows = await inFirm(db, firmId, (tx) => listBadRows(tx, row.id, { after, most: A_PAGE }));
    const last = rows.at(-1);
    if (!last) return;
    yield csvLines(
      rows.map(({ line, reason, cells }) => [
        ...kept.map((index) => cells[index] ?? ""),
        ...[line, reason],
      ]),
    );
    after = last.line;
  }
}

/** Only as the last two columns: a firm's own table may have a column of that name elsewhere. */
const isAdded = (header: string, index: number, headers: readonly string[]): boolean =>
  index >= headers.length - ADDED.length && header === ADDED[index - headers.length + ADDED.length];
