-- Whoever is an auditor and nothing else sees what an access opens to them, and without one nothing.
-- Asked by the person at the start of each transaction, so that what was withdrawn a moment ago, by
-- whichever instance, is seen no more. In one statement with the firm; the id of none is nobody's
-- access, which shows nothing. What runs in parallel cannot set the scope aside while it looks.
CREATE FUNCTION read_as_auditor(p_firm uuid, p_person uuid) RETURNS void LANGUAGE plpgsql AS $$
DECLARE
  v_scope text;
BEGIN
  PERFORM set_config('app.firm_id', p_firm::text, true), set_config('app.audit_scope', '', true),
    set_config('max_parallel_workers_per_gather', '0', true);
  SELECT CASE WHEN period_from IS NULL AND model_ids = '{}' AND site_ids = '{}' THEN ''
    ELSE id::text END INTO v_scope
  FROM audit_access WHERE firm_id = p_firm AND person_id = p_person AND withdrawn_at IS NULL;
  PERFORM set_config('app.audit_scope',
    coalesce(v_scope, '00000000-0000-0000-0000-000000000000'), true);
END $$;

-- Auditors from before, who saw the whole firm without an end: thirty days from now, so that nobody
-- is cut off at once. Those to whom something was given, if only once, keep what stands. Ids lie in
-- the order of time as all others do (version 7).
ALTER TABLE firm NO FORCE ROW LEVEL SECURITY;
ALTER TABLE person NO FORCE ROW LEVEL SECURITY;
ALTER TABLE audit_access NO FORCE ROW LEVEL SECURITY;
INSERT INTO audit_access (firm_id, id, person_id, outside, from_on, until_on, given_by_id, given_at)
SELECT p.firm_id,
  (lpad(to_hex((extract(epoch FROM now()) * 1000)::bigint), 12, '0') || '7'
    || substr(replace(gen_random_uuid()::text, '-', ''), 14))::uuid,
  p.id, true, today.day, today.day + 30,
  coalesce((SELECT o.id FROM person o WHERE o.firm_id = p.firm_id AND o.active
    AND 'owner' = ANY (o.roles) ORDER BY o.id LIMIT 1), p.id), now()
FROM person p JOIN firm f ON f.id = p.firm_id
CROSS JOIN LATERAL (SELECT (now() AT TIME ZONE f.time_zone)::date AS day) today
WHERE p.roles = ARRAY['auditor'] AND NOT EXISTS (SELECT FROM audit_access a
  WHERE a.firm_id = p.firm_id AND a.person_id = p.id);
ALTER TABLE firm FORCE ROW LEVEL SECURITY;
ALTER TABLE person FORCE ROW LEVEL SECURITY;
ALTER TABLE audit_access FORCE ROW LEVEL SECURITY;
