// Known by its reference; without one by its name and mail address, or phone, or postal address.
import type { FirmTransaction } from "../../db/scope.ts";
import type { ImportContext } from "./kind.ts";
import { applyNamed } from "./named-store.ts";
import { differs } from "./row-sql.ts";
import { OF_BATCH, OF_IMPORT, planForManyRows, refuseTwins } from "./rows-store.ts";

const COLUMNS = ["name", "email", "phone", "address", "note", "language"] as const;

const FOUND = `SELECT r.line, count(c.id) AS known, min(c.id::text)::uuid AS id
  FROM csv_import_row r LEFT JOIN customer c ON c.firm_id = r.firm_id
    AND c.reference = r.fields->>'reference'
  WHERE ${OF_IMPORT} AND r.fields ? 'reference' AND r.outcome IS NULL GROUP BY r.line
  UNION ALL
  SELECT r.line, count(c.id), min(c.id::text)::uuid
  FROM csv_import_row r LEFT JOIN customer c ON c.firm_id = r.firm_id
    AND lower(c.name) = lower(r.fields->>'name') AND c.merged_into_id IS NULL
    AND CASE WHEN r.fields ? 'email' THEN lower(c.email) = lower(r.fields->>'email')
      WHEN r.fields ? 'phone' THEN c.phone = r.fields->>'phone'
      WHEN r.fields ? 'address' THEN lower(c.address) = lower(r.fields->>'address') ELSE true END
  WHERE ${OF_IMPORT} AND NOT r.fields ? 'reference' AND r.outcome IS NULL GROUP BY r.line`;

const REASON = `CASE
  WHEN f.known > 1 THEN format('There are %s customers of this name: give the reference of the one '
    'that is meant.', f.known)
  WHEN c.merged_into_id IS NOT NULL THEN format('%s was merged into %s. Edit that one, or undo the '
    'merge first.', c.reference, m.reference)
  WHEN c.id IS NULL AND NOT r.fields ? 'name' THEN 'name: is missing; a new customer needs it' END`;

const JUDGE = `UPDATE csv_import_row r SET subject_id = j.id, reason = j.reason,
    outcome = CASE WHEN j.reason IS NOT NULL THEN 'bad' ELSE j.outcome END
  FROM (SELECT r.line, c.id, ${REASON} AS reason,
      CASE WHEN c.id IS NULL THEN 'new'
        WHEN ${differs(COLUMNS.map((column) => [column, `c.${column}`]))} THEN 'changed'
        ELSE 'unchanged' END AS outcome
    FROM (${FOUND}) f
    JOIN csv_import_row r ON ${OF_IMPORT} AND r.line = f.line
    LEFT JOIN customer c ON c.firm_id = $1::uuid AND c.id = f.id
    LEFT JOIN customer m ON m.firm_id = $1::uuid AND m.id = c.merged_into_id) j
  WHERE ${OF_IMPORT} AND r.line = j.line`;

export async function judgeCustomers(
  tx: FirmTransaction,
  { importId }: ImportContext,
): Promise<void> {
  await planForManyRows(tx, true);
  await refuseTwins(tx, importId, "natural_key");
  await tx.$executeRawUnsafe(JUDGE, tx.firmId, importId);
  await refuseTwins(tx, importId, "subject_id");
  await planForManyRows(tx, false);
}

const ADD = `INSERT INTO customer
    (firm_id, id, reference, name, email, phone, address, note, language, created_at, updated_at)
  SELECT $1::uuid, n.id, n.reference, r.fields->>'name', r.fields->>'email', r.fields->>'phone',
    r.fields->>'address', r.fields->>'note', r.fields->>'language', $4::timestamptz, $4::timestamptz
  FROM jsonb_to_recordset($3::jsonb) AS n(line int, id uuid, reference text)
  JOIN csv_import_row r ON ${OF_BATCH} AND r.line = n.line ORDER BY n.line`;

const EDIT = `UPDATE customer c SET
    ${COLUMNS.map((name) => `${name} = coalesce(r.fields->>'${name}', c.${name})`).join(", ")},
    updated_at = $4::timestamptz, version = c.version + 1
  FROM jsonb_to_recordset($3::jsonb) AS n(line int)
  JOIN csv_import_row r ON ${OF_BATCH} AND r.line = n.line
  WHERE c.firm_id = $1::uuid AND c.id = r.subject_id`;

export const applyCustomers = (tx: FirmTransaction, context: ImportContext) =>
  applyNamed(tx, context, { kind: "C", add: ADD, edit: EDIT });
