-- What an auditor may look at, and for how long. A change is a row of its own and the one before is
-- withdrawn, so that what was ever given stays to be read.
CREATE TABLE "audit_access" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "outside" BOOLEAN NOT NULL,
    "from_on" DATE NOT NULL,
    "until_on" DATE,
    "period_from" DATE,
    "period_to" DATE,
    "model_ids" UUID[] NOT NULL DEFAULT '{}',
    "site_ids" UUID[] NOT NULL DEFAULT '{}',
    "given_by_id" UUID NOT NULL,
    "given_at" TIMESTAMPTZ(3) NOT NULL,
    "withdrawn_by_id" UUID,
    "withdrawn_at" TIMESTAMPTZ(3),

    CONSTRAINT "audit_access_pkey" PRIMARY KEY ("firm_id","id"),
    CHECK ("until_on" >= "from_on"),
    CHECK ("until_on" IS NOT NULL OR NOT "outside"),
    CHECK (("period_from" IS NULL) = ("period_to" IS NULL) AND "period_from" <= "period_to"),
    CHECK (cardinality("model_ids") <= 100 AND cardinality("site_ids") <= 200),
    CHECK (("withdrawn_at" IS NULL) = ("withdrawn_by_id" IS NULL))
);
CREATE INDEX "audit_access_firm_id_person_id_id_idx" ON "audit_access"("firm_id", "person_id", "id");
CREATE UNIQUE INDEX "audit_access_stands_once" ON "audit_access" ("firm_id", "person_id") WHERE "withdrawn_at" IS NULL;
ALTER TABLE "audit_access" ADD CONSTRAINT "audit_access_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_access" ADD CONSTRAINT "audit_access_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_access" ADD CONSTRAINT "audit_access_firm_id_given_by_id_fkey" FOREIGN KEY ("firm_id", "given_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_access" ADD CONSTRAINT "audit_access_firm_id_withdrawn_by_id_fkey" FOREIGN KEY ("firm_id", "withdrawn_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_access" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "audit_access" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "audit_access" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT, UPDATE (withdrawn_at, withdrawn_by_id) ON "audit_access" TO holdpoint_app;

CREATE FUNCTION audit_access_is_kept() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' OR OLD.withdrawn_at IS NOT NULL OR NEW.withdrawn_at IS NULL
    OR to_jsonb(NEW) - 'withdrawn_at' - 'withdrawn_by_id'
       <> to_jsonb(OLD) - 'withdrawn_at' - 'withdrawn_by_id' THEN
    RAISE EXCEPTION 'audit_access rows are withdrawn once and otherwise kept as they were written'
      USING ERRCODE = 'insufficient_privilege', CONSTRAINT = 'audit_access_kept';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON audit_access
  FOR EACH ROW EXECUTE FUNCTION audit_access_is_kept();
CREATE TRIGGER kept_whole BEFORE TRUNCATE ON audit_access
  FOR EACH STATEMENT EXECUTE FUNCTION is_kept();

-- Evidence that an auditor asks for is made later, within what they could see when they asked.
ALTER TABLE "evidence_export" ADD COLUMN "audit_access_id" UUID;
ALTER TABLE "evidence_export" ADD CONSTRAINT "evidence_export_firm_id_audit_access_id_fkey" FOREIGN KEY ("firm_id", "audit_access_id") REFERENCES "audit_access"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- The scope that the transaction reads within; null for everybody but an auditor with a scope.
CREATE FUNCTION audit_scope() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE AS
$$ SELECT nullif(current_setting('app.audit_scope', true), '')::uuid $$;

-- What lies inside a scope. Each function takes the scope off while it looks, or the policies that
-- ask it would ask themselves; a clause SET would do that, but takes a superuser for such a setting.
-- A setting cannot change in a query that runs in parallel: a transaction with a scope has none.
CREATE FUNCTION audited_person(p_access uuid) RETURNS SETOF uuid
  LANGUAGE plpgsql STABLE PARALLEL SAFE ROWS 1 AS $$
DECLARE
  v_scope text := coalesce(current_setting('app.audit_scope', true), '');
BEGIN
  PERFORM set_config('app.audit_scope', '', true);
  RETURN QUERY
  SELECT person_id FROM audit_access WHERE firm_id = current_firm() AND id = p_access;
  PERFORM set_config('app.audit_scope', v_scope, true);
END $$;

-- Jobs at its sites, with a unit of its models, closed in its period or with a visit in it: days by
-- the firm's calendar.
CREATE FUNCTION audited_jobs(p_access uuid) RETURNS SETOF uuid
  LANGUAGE plpgsql STABLE PARALLEL SAFE ROWS 1000 AS $$
DECLARE
  v_scope text := coalesce(current_setting('app.audit_scope', true), '');
BEGIN
  PERFORM set_config('app.audit_scope', '', true);
  RETURN QUERY
  SELECT j.id FROM audit_access a
  JOIN firm f ON f.id = a.firm_id
  JOIN job j ON j.firm_id = a.firm_id
  WHERE a.firm_id = current_firm() AND a.id = p_access
    AND (a.site_ids = '{}' OR j.site_id = ANY (a.site_ids))
    AND (a.model_ids = '{}' OR EXISTS (
      SELECT FROM job_unit k JOIN unit u ON u.firm_id = k.firm_id AND u.id = k.unit_id
      WHERE k.firm_id = j.firm_id AND k.job_id = j.id AND u.model_id = ANY (a.model_ids)))
    AND (a.period_from IS NULL
      OR EXISTS (SELECT FROM close_out c WHERE c.firm_id = j.firm_id AND c.id = j.close_out_id
        AND (c.closed_at AT TIME ZONE f.time_zone)::date BETWEEN a.period_from AND a.period_to)
      OR EXISTS (SELECT FROM visit v WHERE v.firm_id = j.firm_id AND v.job_id = j.id
        AND v.state <> 'cancelled'
        AND (v.starts_at AT TIME ZONE f.time_zone)::date BETWEEN a.period_from AND a.period_to));
  PERFORM set_config('app.audit_scope', v_scope, true);
END $$;

CREATE FUNCTION audited_visits(p_access uuid) RETURNS SETOF uuid
  LANGUAGE plpgsql STABLE PARALLEL SAFE ROWS 1000 AS $$
DECLARE
  v_scope text := coalesce(current_setting('app.audit_scope', true), '');
BEGIN
  PERFORM set_config('app.audit_scope', '', true);
  RETURN QUERY
  SELECT v.id FROM visit v WHERE v.firm_id = current_firm()
    AND v.job_id IN (SELECT audited_jobs(p_access));
  PERFORM set_config('app.audit_scope', v_scope, true);
END $$;

-- Units of its jobs, all of them, or the record of a job would not be whole; without a period also
-- what else stands at its sites or is of its models.
CREATE FUNCTION audited_units(p_access uuid) RETURNS SETOF uuid
  LANGUAGE plpgsql STABLE PARALLEL SAFE ROWS 1000 AS $$
DECLARE
  v_scope text := coalesce(current_setting('app.audit_scope', true), '');
BEGIN
  PERFORM set_config('app.audit_scope', '', true);
  RETURN QUERY
  SELECT k.unit_id FROM job_unit k WHERE k.firm_id = current_firm()
    AND k.job_id IN (SELECT audited_jobs(p_access))
  UNION
  SELECT u.id FROM audit_access a JOIN unit u ON u.firm_id = a.firm_id
  WHERE a.firm_id = current_firm() AND a.id = p_access AND a.period_from IS NULL
    AND (a.site_ids = '{}' OR u.site_id = ANY (a.site_ids))
    AND (a.model_ids = '{}' OR u.model_id = ANY (a.model_ids));
  PERFORM set_config('app.audit_scope', v_scope, true);
END $$;

-- Sites of its jobs; without a period also those named, or where a unit of its models stands.
CREATE FUNCTION audited_sites(p_access uuid) RETURNS SETOF uuid
  LANGUAGE plpgsql STABLE PARALLEL SAFE ROWS 1000 AS $$
DECLARE
  v_scope text := coalesce(current_setting('app.audit_scope', true), '');
BEGIN
  PERFORM set_config('app.audit_scope', '', true);
  RETURN QUERY
  SELECT j.site_id FROM job j WHERE j.firm_id = current_firm()
    AND j.id IN (SELECT audited_jobs(p_access))
  UNION
  SELECT s.id FROM audit_access a JOIN site s ON s.firm_id = a.firm_id
  WHERE a.firm_id = current_firm() AND a.id = p_access AND a.period_from IS NULL
    AND (a.site_ids = '{}' OR s.id = ANY (a.site_ids))
    AND (a.model_ids = '{}' OR EXISTS (SELECT FROM unit u WHERE u.firm_id = s.firm_id
      AND u.site_id = s.id AND u.model_id = ANY (a.model_ids)));
  PERFORM set_config('app.audit_scope', v_scope, true);
END $$;

CREATE FUNCTION audited_customers(p_access uuid) RETURNS SETOF uuid
  LANGUAGE plpgsql STABLE PARALLEL SAFE ROWS 1000 AS $$
DECLARE
  v_scope text := coalesce(current_setting('app.audit_scope', true), '');
BEGIN
  PERFORM set_config('app.audit_scope', '', true);
  RETURN QUERY
  SELECT s.customer_id FROM site s WHERE s.firm_id = current_firm()
    AND s.id IN (SELECT audited_sites(p_access));
  PERFORM set_config('app.audit_scope', v_scope, true);
END $$;

-- Gives a table the policy: of a row every site, job, unit, customer and visit that it belongs to has
-- to lie inside the scope. Each migration that adds a table with such a column calls it; a table that
-- can be told by none names its own condition.
CREATE FUNCTION keep_in_audit_scope(p_table regclass, p_condition text DEFAULT NULL) RETURNS void
  LANGUAGE plpgsql AS $$
DECLARE
  v_column text;
  v_of text;
  v_inside text[] := '{}';
BEGIN
  FOR v_column, v_of IN
    SELECT a.attname, k.of FROM pg_attribute a JOIN (VALUES
      ('site_id', 'sites'), ('job_id', 'jobs'), ('origin_job_id', 'jobs'), ('unit_id', 'units'),
      ('customer_id', 'customers'), ('visit_id', 'visits')) k(name, of) ON k.name = a.attname
    WHERE a.attrelid = p_table AND NOT a.attisdropped ORDER BY 1
  LOOP
    v_inside := v_inside || format(
      '(%1$I IS NULL OR %1$I IN (SELECT audited_%2$s((SELECT audit_scope()))))', v_column, v_of);
  END LOOP;
  IF p_condition IS NOT NULL THEN v_inside := v_inside || p_condition; END IF;
  IF v_inside = '{}' THEN RAISE EXCEPTION '% belongs to no site, job, unit or customer', p_table; END IF;
  EXECUTE format('CREATE POLICY audit_scope ON %s AS RESTRICTIVE FOR SELECT
    USING ((SELECT audit_scope()) IS NULL OR (%s))', p_table, array_to_string(v_inside, ' AND '));
END $$;

SELECT keep_in_audit_scope(format('%I', c.table_name)::regclass)
FROM (SELECT DISTINCT table_name FROM information_schema.columns
  WHERE table_schema = current_schema() AND table_name NOT IN ('site', 'unit', 'job', 'mail')
  AND column_name IN ('site_id', 'job_id', 'unit_id', 'customer_id', 'visit_id')) c;
CREATE POLICY audit_scope ON site AS RESTRICTIVE FOR SELECT USING (
  (SELECT audit_scope()) IS NULL OR id IN (SELECT audited_sites((SELECT audit_scope()))));
CREATE POLICY audit_scope ON unit AS RESTRICTIVE FOR SELECT USING (
  (SELECT audit_scope()) IS NULL OR id IN (SELECT audited_units((SELECT audit_scope()))));
CREATE POLICY audit_scope ON customer AS RESTRICTIVE FOR SELECT USING (
  (SELECT audit_scope()) IS NULL OR id IN (SELECT audited_customers((SELECT audit_scope()))));
CREATE POLICY audit_scope ON job AS RESTRICTIVE FOR SELECT USING (
  (SELECT audit_scope()) IS NULL OR id IN (SELECT audited_jobs((SELECT audit_scope()))));

-- Told by what they belong to.
SELECT keep_in_audit_scope('effect_check', 'nonconformance_id IN (SELECT id FROM nonconformance)');
SELECT keep_in_audit_scope('warranty_claim_evidence', 'claim_id IN (SELECT id FROM warranty_claim)');
SELECT keep_in_audit_scope('evidence_time_stamp', 'signature_id IN (SELECT id FROM evidence_signature)');
-- Whoever asked for it may have had another scope.
SELECT keep_in_audit_scope('evidence_export', 'audit_access_id = (SELECT audit_scope())');
SELECT keep_in_audit_scope('csv_export', 'person_id = (SELECT audited_person((SELECT audit_scope())))');
-- An access names the sites of its scope.
SELECT keep_in_audit_scope('audit_access', 'person_id = (SELECT audited_person((SELECT audit_scope())))');
-- By the kind of thing that they are about.
SELECT keep_in_audit_scope(t, 'CASE kind
  WHEN ''customer'' THEN subject_id IN (SELECT audited_customers((SELECT audit_scope())))
  WHEN ''site'' THEN subject_id IN (SELECT audited_sites((SELECT audit_scope())))
  WHEN ''unit'' THEN subject_id IN (SELECT audited_units((SELECT audit_scope())))
  WHEN ''job'' THEN subject_id IN (SELECT audited_jobs((SELECT audit_scope())))
  ELSE true END')
FROM unnest(ARRAY['search_entry', 'change_record']::regclass[]) t;
-- They hold texts and lists over the whole firm, or what is no part of any record.
SELECT keep_in_audit_scope(t, 'false') FROM unnest(ARRAY['notice', 'due_list_record', 'update_round',
  'mail', 'mail_attachment', 'record_merge', 'tablet_quarantine', 'csv_import', 'csv_import_row',
  'webhook_delivery', 'handover_link']::regclass[]) t
WHERE NOT EXISTS (SELECT FROM pg_policy p WHERE p.polrelid = t AND p.polname = 'audit_scope');

-- The due list is counted from this index alone; the policy asks for the unit's id, so that is in it.
DROP INDEX "unit_firm_id_model_id_firmware_key_site_id_idx";
CREATE INDEX "unit_firm_id_model_id_firmware_key_site_id_id_idx" ON "unit"("firm_id", "model_id", "firmware_key", "site_id", "id");
