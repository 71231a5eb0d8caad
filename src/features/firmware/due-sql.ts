// The parts that every question about what is due is made of, so that all of them mean the same.
// $1 is the firm; the filters are $2 to $8 as `filterValues` gives them.

/**
 * The firm's few targets that ask for something: those whose release stands and whose ring has been
 * opened. A ring that is held still asks; it is told that it is held.
 */
export const TARGETS = `every AS MATERIALIZED (
  SELECT t.id, t.model_id, t.target_key, t.due_on, t.ring_id, t.region, t.state, r.level,
    r.severity, r.hardware_revisions AS revisions,
    CASE WHEN t.ring_id IS NULL THEN 0 ELSE 2 END
      + CASE WHEN t.region IS NULL THEN 0 ELSE 1 END AS rank
  FROM firmware_target t JOIN firmware_release r ON r.firm_id = t.firm_id AND r.id = t.release_id
  WHERE t.firm_id = $1::uuid AND r.firm_id = $1::uuid AND r.withdrawn_on IS NULL
    AND t.state <> 'waiting'),
targets AS MATERIALIZED (
  SELECT * FROM every t
  WHERE ($2::text IS NULL OR t.severity = $2) AND ($3::uuid IS NULL OR t.model_id = $3)
    AND ($5::date IS NULL OR t.due_on < $5::date)
    AND ($6::boolean IS NULL OR (t.due_on < $7::date) = $6)
    AND ($8::date IS NULL OR t.due_on >= $8::date))`;

/** Whether target `t` is the one that counts at site `s`: the most special of those that apply. */
export const EFFECTIVE = `(t.ring_id IS NULL OR t.ring_id = s.ring_id)
  AND (t.region IS NULL OR t.region = s.region)
  AND NOT EXISTS (SELECT FROM every o WHERE o.model_id = t.model_id AND o.rank > t.rank
    AND (o.ring_id IS NULL OR o.ring_id = s.ring_id)
    AND (o.region IS NULL OR o.region = s.region))`;

/** Whether the release fits unit `u`; one whose revision nobody noted has to be looked at. */
export const FITS = `(t.revisions = '{}' OR u.hardware_revision IS NULL
  OR u.hardware_revision = ANY (t.revisions))`;

export const joinSite = (siteId: string): string => `JOIN site s ON s.firm_id = $1::uuid
  AND s.id = ${siteId} AND s.archived_at IS NULL AND ($4::text IS NULL OR s.region = $4)`;

// The index holds all that is asked where a release fits every revision; only for others a unit's
// row has to be read.
const unitsWhere = (condition: string): string => `(
  SELECT u.site_id, t.id AS target_id FROM targets t JOIN unit u ON u.firm_id = $1::uuid
    AND u.model_id = t.model_id AND ${condition} WHERE t.revisions = '{}'
  UNION ALL
  SELECT u.site_id, t.id FROM targets t JOIN unit u ON u.firm_id = $1::uuid
    AND u.model_id = t.model_id AND ${condition} WHERE t.revisions <> '{}' AND ${FITS})`;

/** Site and target of each unit below a target that may count for it. */
export const BELOW = unitsWhere("u.firmware_key < t.target_key");
/** The same for units whose level has no place in the order. */
export const UNCLEAR = unitsWhere("u.firmware_key IS NULL");
