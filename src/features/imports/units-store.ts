// Known by product model and serial. A unit that is new comes into stock, and with a site it is
// installed there, by the rules and in the words of goods-in and installation.
import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { ImportContext } from "./kind.ts";
import { differs } from "./row-sql.ts";
import { applicableRows, OF_BATCH, OF_IMPORT, planForManyRows, refuseTwins } from "./rows-store.ts";

const DETAILS = [
  ["hardwareRevision", "u.hardware_revision"],
  ["note", "u.note"],
] as const;
const MOVES = "(r.fields ? 'site' AND u.site_id IS DISTINCT FROM w.id)";

const REASON = `CASE
  WHEN NOT r.fields ? 'site' THEN NULL
  WHEN w.id IS NULL THEN 'There is no such site in your firm.'
  WHEN w.archived_at IS NOT NULL THEN format('%s is archived. Bring the site back first.',
    w.reference)
  WHEN u.site_id = w.id THEN NULL
  WHEN u.state = 'swapped' THEN format('%s was swapped out. If it is repaired, record its goods-in '
    'again first.', u.serial)
  WHEN u.quarantined_at IS NOT NULL THEN format('%s is in quarantine. Take another unit; only a '
    'manager releases it, with a reason.', u.serial)
  WHEN coalesce(u.site_id, live.site_id) IS NOT NULL THEN 
    format('%s is live at %s. Check the label; '
    'if the unit really moved, record its removal from %s first.', r.fields->>'serial',
    at_other.reference, at_other.reference)
  WHEN u.state = 'removed' THEN 
    format('%s was removed from its site before. Install it again on its '
    'own page: an old list must not bring it back.', u.serial) END`;

const JUDGE = `UPDATE csv_import_row r SET subject_id = j.id, owner_id = j.site_id,
    reason = j.reason, outcome = CASE WHEN j.reason IS NOT NULL THEN 'bad' ELSE j.outcome END
  FROM (SELECT r.line, u.id, w.id AS site_id, ${REASON} AS reason,
      CASE WHEN u.id IS NULL THEN 'new' WHEN ${MOVES} OR ${differs(DETAILS)} THEN 'changed'
        ELSE 'unchanged' END AS outcome
    FROM csv_import_row r
    LEFT JOIN unit u ON u.firm_id = $1::uuid AND u.model_id = (r.fields->>'modelId')::uuid
      AND u.serial = r.fields->>'serial'
    LEFT JOIN site w ON w.firm_id = $1::uuid AND w.reference = r.fields->>'site'
    LEFT JOIN unit live ON live.firm_id = $1::uuid AND live.serial = r.fields->>'serial'
      AND live.state = 'installed' AND live.id IS DISTINCT FROM u.id AND r.fields ? 'site'
    LEFT JOIN site at_other ON at_other.firm_id = $1::uuid
      AND at_other.id = coalesce(u.site_id, live.site_id)
    WHERE ${OF_IMPORT} AND r.outcome IS NULL) j
  WHERE ${OF_IMPORT} AND r.line = j.line`;

/** Of the few that are in stock again after a move; each is looked up by its index. */
const AFTER_LAST_MOVE = `UPDATE csv_import_row r SET outcome = 'bad',
    reason = format('is before an earlier move: the unit was %s on %s', m.kind,
      to_char(m.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'))
  FROM (SELECT u.id, e.kind, e.at FROM unit u JOIN LATERAL (
      SELECT e.kind, e.at FROM unit_event e WHERE e.firm_id = u.firm_id AND e.unit_id = u.id
        AND e.kind <> 'received' ORDER BY e.at DESC LIMIT 1) e ON true
    WHERE u.firm_id = $1::uuid AND u.state = 'received') m
  WHERE ${OF_IMPORT} AND r.outcome = 'changed' AND r.subject_id = m.id AND r.fields ? 'site'
    AND m.at > coalesce((r.fields->>'installedAt')::timestamptz, $3::timestamptz)`;

export async function judgeUnits(
  tx: FirmTransaction,
  { importId, now }: ImportContext,
): Promise<void> {
  await planForManyRows(tx, true);
  await refuseTwins(tx, importId, "natural_key");
  await tx.$executeRawUnsafe(JUDGE, tx.firmId, importId);
  await refuseTwins(tx, importId, "fields->>'serial'", INSTALLED_BY_ROW);
  await planForManyRows(tx, false);
  await tx.$executeRawUnsafe(AFTER_LAST_MOVE, tx.firmId, importId, now);
}

/** One serial cannot be live twice, under whichever models. */
const INSTALLED_BY_ROW = "r.fields ? 'site'";

const A_BATCH = 1000;
const ROWS = `jsonb_to_recordset($3::jsonb) AS n(line int, id uuid, received uuid, installed uuid)
  JOIN csv_import_row r ON ${OF_BATCH} AND r.line = n.line`;

/** A tablet's clock may run ahead, as at the interface: what is then yet to come is now. */
const AT =
  "least(coalesce((r.fields->>'installedAt')::timestamptz, $4::timestamptz), $4::timestamptz)";

const ADD = `INSERT INTO unit (firm_id, id, model_id, serial, hardware_revision, note, state,
  site_id,
    created_at, updated_at)
  SELECT $1::uuid, n.id, (r.fields->>'modelId')::uuid, r.fields->>'serial',
    r.fields->>'hardwareRevision', r.fields->>'note',
    CASE WHEN r.owner_id IS NULL THEN 'received' ELSE 'installed' END, r.owner_id,
    $4::timestamptz, $4::timestamptz
  FROM ${ROWS} WHERE r.outcome = 'new' ORDER BY n.line`;

const EDIT = `UPDATE unit u SET
    hardware_revision = coalesce(r.fields->>'hardwareRevision', u.hardware_revision),
    note = coalesce(r.fields->>'note', u.note),
    state = CASE WHEN r.owner_id IS NULL THEN u.state ELSE 'installed' END,
    site_id = coalesce(r.owner_id, u.site_id),
    stock_place = CASE WHEN r.owner_id IS NULL THEN u.stock_place END,
    updated_at = $4::timestamptz, version = u.version + 1
  FROM ${ROWS} WHERE r.outcome = 'changed' AND u.firm_id = $1::uuid AND u.id = r.subject_id`;

const RECEIVED = `INSERT INTO unit_event (firm_id, id, unit_id, kind, person_id, at)
  SELECT $1::uuid, n.received, n.id, 'received', $5::uuid, ${AT}
  FROM ${ROWS} WHERE r.outcome = 'new'`;

/** The unit is looked up row by row: joined, all that are live would be read for each row. */
const INSTALLED = `INSERT INTO unit_event (firm_id, id, unit_id, kind, site_id, person_id, at)
  SELECT $1::uuid, n.installed, n.id, 'installed', r.owner_id, $5::uuid, ${AT}
  FROM ${ROWS} WHERE r.owner_id IS NOT NULL AND (r.outcome = 'new' OR 'installed' <> (
    SELECT u.state FROM unit u WHERE u.firm_id = $1::uuid AND u.id = r.subject_id))`;

export async function applyUnits(
  tx: FirmTransaction,
  { importId, personId, now, beat }: ImportContext,
): Promise<Record<string, number>> {
  for (let [line, done] = [0, 0]; ; ) {
    const rows = await applicableRows(tx, importId, { turn: 1, line, most: A_BATCH });
    const last = rows.at(-1);
    if (!last) return {};
    const listed = rows.map((row) => ({
      ...{ line: row.line, id: row.subjectId ?? uuidv7() },
      ...{ received: uuidv7(), installed: uuidv7() },
    }));
    const values = [tx.firmId, importId, JSON.stringify(listed), now] as const;
    await tx.$executeRawUnsafe(ADD, ...values);
    await tx.$executeRawUnsafe(RECEIVED, ...values, personId);
    await tx.$executeRawUnsafe(INSTALLED, ...values, personId);
    await tx.$executeRawUnsafe(EDIT, ...values);
    [line, done] = [last.line, done + rows.length];
    await beat(done);
  }
}
