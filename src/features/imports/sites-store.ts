// Known by its reference; without one by its customer, street and postcode, and name if given.
import type { FirmTransaction } from "../../db/scope.ts";
import type { ImportContext } from "./kind.ts";
import { applyNamed } from "./named-store.ts";
import { differs, missingOfNew } from "./row-sql.ts";
import { OF_BATCH, OF_IMPORT, planForManyRows, refuseTwins } from "./rows-store.ts";

const COLUMNS = [
  ["name", "name", "text"],
  ["addressLine", "address_line", "text"],
  ["locality", "locality", "text"],
  ["postcode", "postcode", "text"],
  ["country", "country", "text"],
  ["latitude", "latitude", "float8"],
  ["longitude", "longitude", "float8"],
  ["timeZone", "time_zone", "text"],
  ["supply", "supply", "text"],
  ["region", "region", "text"],
] as const;

const OWNED = `csv_import_row r LEFT JOIN customer o ON o.firm_id = r.firm_id
    AND o.reference = r.fields->>'customer'`;

const FOUND = `SELECT r.line, count(s.id) AS known, min(s.id::text)::uuid AS id
  FROM csv_import_row r LEFT JOIN site s ON s.firm_id = r.firm_id
    AND s.reference = r.fields->>'reference'
  WHERE ${OF_IMPORT} AND r.fields ? 'reference' AND r.outcome IS NULL GROUP BY r.line
  UNION ALL
  SELECT r.line, count(s.id), min(s.id::text)::uuid
  FROM ${OWNED} LEFT JOIN site s ON s.firm_id = r.firm_id AND s.customer_id = o.id
    AND s.merged_into_id IS NULL AND lower(s.address_line) = lower(r.fields->>'addressLine')
    AND upper(replace(s.postcode, ' ', '')) = upper(replace(r.fields->>'postcode', ' ', ''))
    AND (NOT r.fields ? 'name' OR lower(s.name) = lower(r.fields->>'name'))
  WHERE ${OF_IMPORT} AND NOT r.fields ? 'reference' AND r.outcome IS NULL GROUP BY r.line`;

const NEEDED = ["customer", ...COLUMNS.map(([field]) => field).filter((field) => field !== "name")];

const REASON = `CASE
  WHEN r.fields ? 'customer' AND o.id IS NULL THEN 'There is no such customer in your firm.'
  WHEN f.known > 1 THEN format('There are %s sites at this address: give the reference of the one '
    'that is meant.', f.known)
  WHEN s.merged_into_id IS NOT NULL THEN format('%s was merged into %s. Edit that one, or undo the '
    'merge first.', s.reference, m.reference)
  WHEN o.archived_at IS NOT NULL AND o.id IS DISTINCT FROM s.customer_id THEN
    format('Customer %s is archived: bring the customer back first.', o.reference)
  WHEN s.id IS NULL THEN CASE ${missingOfNew("site", NEEDED)} END END`;

const numeric = ([field, column, type]: (typeof COLUMNS)[number]): string =>
  type === "text"
    ? differs([[field, `s.${column}`]])
    : `(r.fields ? '${field}' AND (r.fields->>'${field}')::float8 IS DISTINCT FROM s.${column})`;

const JUDGE = `UPDATE csv_import_row r SET subject_id = j.id, owner_id = j.owner_id,
    reason = j.reason, outcome = CASE WHEN j.reason IS NOT NULL THEN 'bad' ELSE j.outcome END
  FROM (SELECT r.line, s.id, o.id AS owner_id, ${REASON} AS reason,
      CASE WHEN s.id IS NULL THEN 'new'
        WHEN o.id <> s.customer_id OR ${COLUMNS.map(numeric).join(" OR ")} THEN 'changed'
        ELSE 'unchanged' END AS outcome
    FROM (${FOUND}) f
    JOIN csv_import_row r ON ${OF_IMPORT} AND r.line = f.line
    LEFT JOIN customer o ON o.firm_id = $1::uuid AND o.reference = r.fields->>'customer'
    LEFT JOIN site s ON s.firm_id = $1::uuid AND s.id = f.id
    LEFT JOIN site m ON m.firm_id = $1::uuid AND m.id = s.merged_into_id) j
  WHERE ${OF_IMPORT} AND r.line = j.line`;

export async function judgeSites(tx: FirmTransaction, { importId }: ImportContext): Promise<void> {
  await planForManyRows(tx, true);
  await refuseTwins(tx, importId, "natural_key");
  await tx.$executeRawUnsafe(JUDGE, tx.firmId, importId);
  await refuseTwins(tx, importId, "subject_id");
  await planForManyRows(tx, false);
}

const cellOf = ([field, , type]: (typeof COLUMNS)[number]): string =>
  `(r.fields->>'${field}')::${type}`;

const ADD = `INSERT INTO site (firm_id, id, reference, customer_id, created_at, updated_at,
    ${COLUMNS.map(([, column]) => column).join(", ")})
  SELECT $1::uuid, n.id, n.reference, r.owner_id, $4::timestamptz, $4::timestamptz,
    ${COLUMNS.map(cellOf).join(", ")}
  FROM jsonb_to_recordset($3::jsonb) AS n(line int, id uuid, reference text)
  JOIN csv_import_row r ON ${OF_BATCH} AND r.line = n.line ORDER BY n.line`;

const EDIT = `UPDATE site s SET customer_id = coalesce(r.owner_id, s.customer_id),
    ${COLUMNS.map((of) => `${of[1]} = coalesce(${cellOf(of)}, s.${of[1]})`).join(", ")},
    updated_at = $4::timestamptz, version = s.version + 1
  FROM jsonb_to_recordset($3::jsonb) AS n(line int)
  JOIN csv_import_row r ON ${OF_BATCH} AND r.line = n.line
  WHERE s.firm_id = $1::uuid AND s.id = r.subject_id`;

export const applySites = (tx: FirmTransaction, context: ImportContext) =>
  applyNamed(tx, context, { kind: "S", add: ADD, edit: EDIT });
