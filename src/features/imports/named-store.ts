// Things that go by a reference of their own: customers and sites.
import { uuidv7 } from "uuidv7";
import { nextReferences, type ReferenceKind } from "../../db/references.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import type { ImportContext } from "./kind.ts";
import { type ApplicableRow, applicableRows, OF_IMPORT } from "./rows-store.ts";

const A_BATCH = 1000;

export interface NamedTable {
  kind: ReferenceKind;
  /** $1 firm, $2 import, $3 rows with line, id and reference, $4 now. */
  add: string;
  /** $1 firm, $2 import, $3 rows with their line, $4 now. */
  edit: string;
}

export async function applyNamed(
  tx: FirmTransaction,
  { importId, now, beat }: ImportContext,
  table: NamedTable,
): Promise<Record<string, number>> {
  await raiseCounters(tx, importId, table.kind);
  for (let [line, done] = [0, 0]; ; ) {
    const after = { turn: 1, line, most: A_BATCH };
    const rows = await applicableRows<{ reference?: string }>(tx, importId, after);
    const last = rows.at(-1);
    if (!last) return {};
    const added = await withReferences(tx, table.kind, rows, now);
    const edited = rows.filter(({ outcome }) => outcome === "changed");
    for (const [sql, list] of [
      [table.add, added],
      [table.edit, edited.map((row) => ({ line: row.line }))],
    ] as const) {
      if (list.length === 0) continue;
      await tx.$executeRawUnsafe(sql, tx.firmId, importId, JSON.stringify(list), now);
    }
    [line, done] = [last.line, done + rows.length];
    await beat(done);
  }
}

async function withReferences(
  tx: FirmTransaction,
  kind: ReferenceKind,
  rows: readonly ApplicableRow<{ reference?: string }>[],
  now: Date,
) {
  const added = rows.filter(({ outcome }) => outcome === "new");
  const without = added.filter(({ fields }) => fields.reference === undefined);
  const given = await nextReferences(tx, kind, without.length, now);
  return added.map(({ line, fields }) => ({
    ...{ line, id: uuidv7() },
    reference: fields.reference ?? given.shift(),
  }));
}

/** References that came in looking like ours are not given out a second time. */
async function raiseCounters(
  tx: FirmTransaction,
  importId: string,
  kind: ReferenceKind,
): Promise<void> {
  await tx.$executeRawUnsafe(
    `INSERT INTO reference_counter AS c (firm_id, kind, year, last)
     SELECT $1::uuid, $3, parts[1]::int, max(parts[2]::int)
     FROM csv_import_row r,
       regexp_match(r.fields->>'reference', '^${kind}-(\\d{4})-(\\d{4,7})$') parts
     WHERE ${OF_IMPORT} AND r.outcome = 'new' AND parts IS NOT NULL GROUP BY parts[1]
     ON CONFLICT (firm_id, kind, year) DO UPDATE SET last = greatest(c.last, excluded.last)`,
    tx.firmId,
    importId,
    kind,
  );
}
