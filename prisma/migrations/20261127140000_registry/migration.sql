-- Finding things, changes that can be undone, and duplicates that become one.

-- Search ------------------------------------------------------------------------------------------
CREATE EXTENSION IF NOT EXISTS btree_gin;

-- As typed and as kept, without capitals, accents and punctuation; src/domain/search/fold.ts says why.
CREATE FUNCTION fold_text(p_text text) RETURNS text LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT btrim(regexp_replace(
    replace(replace(replace(replace(translate(
      lower(regexp_replace(normalize(p_text, NFKD), '[\u0300-\u036f''’ʼ`´]', '', 'g')),
      'øłđðħı', 'olddhi'), 'ß', 'ss'), 'æ', 'ae'), 'œ', 'oe'), 'þ', 'th'),
    '[^[:alnum:]]+', ' ', 'g'))
$$;

-- What is sought stands in a setting of the transaction, its words one blank apart.
CREATE FUNCTION search_word(p_place integer) RETURNS text LANGUAGE sql STABLE PARALLEL SAFE AS $$
  SELECT coalesce(nullif(split_part(sought.words, ' ', p_place), ''), split_part(sought.words, ' ', 1))
  FROM (SELECT coalesce(current_setting('app.search', true), '') AS words) sought
$$;

CREATE TABLE "search_entry" (
    "firm_id" UUID NOT NULL,
    "subject_id" UUID NOT NULL,
    "kind" TEXT NOT NULL CHECK ("kind" IN ('customer', 'site', 'job', 'instrument', 'person')),
    "words" TEXT NOT NULL,

    CONSTRAINT "search_entry_pkey" PRIMARY KEY ("firm_id","subject_id")
);
ALTER TABLE "search_entry" ADD CONSTRAINT "search_entry_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
CREATE INDEX "search_entry_firm_id_words_idx" ON "search_entry" USING GIN ("firm_id", "words" gin_trgm_ops);

-- The operators of pg_trgm are not leakproof, so a query's own condition would be tested only after the
-- firm's whole list had been read. Inside the policy it stands beside the firm's condition, and one
-- index answers both. Whoever seeks nothing sees nothing.
ALTER TABLE "search_entry" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "search_entry" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm_sought ON "search_entry" FOR SELECT USING (
  firm_id = (SELECT current_firm()) AND words %> (SELECT search_word(1))
  AND words %> (SELECT search_word(2)) AND words %> (SELECT search_word(3)));
CREATE POLICY own_firm_added ON "search_entry" FOR INSERT WITH CHECK (firm_id = (SELECT current_firm()));
CREATE POLICY own_firm_removed ON "search_entry" FOR DELETE USING (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT, DELETE ON search_entry TO holdpoint_app;

-- The words of a row from the columns named; one with a star also counts without its blanks.
CREATE FUNCTION search_words(p_row jsonb, p_columns text[]) RETURNS text LANGUAGE sql IMMUTABLE AS $$
  SELECT coalesce(string_agg(word, ' ' ORDER BY place), '') FROM (
    SELECT place, CASE WHEN name LIKE '%*' THEN replace(fold_text(p_row ->> rtrim(name, '*')), ' ', '')
      ELSE fold_text(p_row ->> name) END AS word
    FROM unnest(p_columns) WITH ORDINALITY AS named (name, place)) folded
  WHERE word <> ''
$$;

CREATE FUNCTION keep_search_entry() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  v_old text := '';
  v_new text := '';
  v_sought text := coalesce(current_setting('app.search', true), '');
BEGIN
  IF TG_OP <> 'INSERT' THEN v_old := search_words(to_jsonb(OLD), TG_ARGV); END IF;
  IF TG_OP <> 'DELETE' THEN v_new := search_words(to_jsonb(NEW), TG_ARGV); END IF;
  IF v_old = v_new THEN RETURN NULL; END IF;
  IF v_old <> '' THEN
    -- Only what is sought can be removed: the entry is sought by its own first word.
    PERFORM set_config('app.search', split_part(v_old, ' ', 1), true);
    DELETE FROM search_entry WHERE firm_id = OLD.firm_id AND subject_id = OLD.id;
    PERFORM set_config('app.search', v_sought, true);
  END IF;
  IF v_new <> '' THEN
    INSERT INTO search_entry (firm_id, subject_id, kind, words)
      VALUES (NEW.firm_id, NEW.id, TG_TABLE_NAME, v_new);
  END IF;
  RETURN NULL;
END $$;

CREATE TRIGGER keep_search_entry AFTER INSERT OR UPDATE OR DELETE ON customer FOR EACH ROW
  EXECUTE FUNCTION keep_search_entry('name', 'address', 'email', 'phone*');
CREATE TRIGGER keep_search_entry AFTER INSERT OR UPDATE OR DELETE ON site FOR EACH ROW
  EXECUTE FUNCTION keep_search_entry('name', 'address_line', 'locality', 'postcode', 'postcode*');
CREATE TRIGGER keep_search_entry AFTER INSERT OR UPDATE OR DELETE ON job FOR EACH ROW
  EXECUTE FUNCTION keep_search_entry('title');
CREATE TRIGGER keep_search_entry AFTER INSERT OR UPDATE OR DELETE ON instrument FOR EACH ROW
  EXECUTE FUNCTION keep_search_entry('name', 'reference', 'serial', 'serial*');
CREATE TRIGGER keep_search_entry AFTER INSERT OR UPDATE OR DELETE ON person FOR EACH ROW
  EXECUTE FUNCTION keep_search_entry('name', 'email');

-- Serial numbers are found by their beginning, their end, and whole with a slip of one key.
ALTER TABLE "unit" ADD COLUMN "serial_reversed" TEXT GENERATED ALWAYS AS (reverse(serial)) STORED;
-- The conditions leave nothing out; they keep Prisma, which cannot write such indexes, from dropping them.
CREATE INDEX unit_serial_begins ON unit (firm_id, serial text_pattern_ops) WHERE serial IS NOT NULL;
CREATE INDEX unit_serial_ends ON unit (firm_id, serial_reversed text_pattern_ops)
  WHERE serial_reversed IS NOT NULL;

-- The list of customers is in the order of their folded names.
CREATE INDEX customer_by_name ON customer (firm_id, fold_text(name) text_pattern_ops, id);

-- What was there before there was a search; row by row of firms, since each is seen alone.
DO $$
DECLARE
  v_firm uuid;
  v_kind text;
  v_columns text[];
BEGIN
  PERFORM set_config('app.purpose', 'runs', true);
  FOR v_firm IN SELECT id FROM firm LOOP
    PERFORM set_config('app.firm_id', v_firm::text, true);
    FOR v_kind, v_columns IN SELECT * FROM (VALUES
      ('customer', ARRAY['name', 'address', 'email', 'phone*']),
      ('site', ARRAY['name', 'address_line', 'locality', 'postcode', 'postcode*']),
      ('job', ARRAY['title']),
      ('instrument', ARRAY['name', 'reference', 'serial', 'serial*']),
      ('person', ARRAY['name', 'email'])) kinds LOOP
      EXECUTE format('INSERT INTO search_entry (firm_id, subject_id, kind, words)
        SELECT firm_id, id, %L, words FROM (
          SELECT firm_id, id, search_words(to_jsonb(%2$I), $1) AS words FROM %2$I
          WHERE firm_id = $2) entry WHERE words <> %3$L', v_kind, v_kind, '') USING v_columns, v_firm;
    END LOOP;
  END LOOP;
  PERFORM set_config('app.firm_id', '', true), set_config('app.purpose', '', true);
END $$;

-- Changes -----------------------------------------------------------------------------------------
CREATE TABLE "change_record" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "kind" TEXT NOT NULL CHECK ("kind" IN ('customer', 'site', 'unit', 'instrument', 'person')),
    "subject_id" UUID NOT NULL,
    "before" JSONB NOT NULL,
    "after" JSONB NOT NULL,
    "version_after" INTEGER NOT NULL,
    "person_id" UUID,
    "undoes_id" UUID,
    "at" TIMESTAMPTZ(6) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "change_record_pkey" PRIMARY KEY ("firm_id","id")
);
CREATE INDEX "change_record_firm_id_subject_id_at_idx" ON "change_record"("firm_id", "subject_id", "at");
ALTER TABLE "change_record" ADD CONSTRAINT "change_record_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "change_record" ADD CONSTRAINT "change_record_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "change_record" ADD CONSTRAINT "change_record_firm_id_undoes_id_fkey" FOREIGN KEY ("firm_id", "undoes_id") REFERENCES "change_record"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- Kept whichever way the row was changed; who did it stands in a setting of the transaction.
CREATE FUNCTION keep_change() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  v_before jsonb;
  v_after jsonb;
BEGIN
  -- A merge keeps its own record.
  IF coalesce(current_setting('app.merge_id', true), '') <> '' THEN RETURN NULL; END IF;
  SELECT jsonb_object_agg(name, to_jsonb(OLD) -> name), jsonb_object_agg(name, to_jsonb(NEW) -> name)
    INTO v_before, v_after FROM unnest(TG_ARGV) name
    WHERE to_jsonb(OLD) -> name IS DISTINCT FROM to_jsonb(NEW) -> name;
  IF v_before IS NULL THEN RETURN NULL; END IF;
  INSERT INTO change_record (firm_id, kind, subject_id, before, after, version_after, person_id, undoes_id)
    VALUES (NEW.firm_id, TG_TABLE_NAME, NEW.id, v_before, v_after, NEW.version,
      nullif(current_setting('app.person_id', true), '')::uuid,
      nullif(current_setting('app.undoes_id', true), '')::uuid);
  RETURN NULL;
END $$;

CREATE TRIGGER keep_change AFTER UPDATE ON customer FOR EACH ROW EXECUTE FUNCTION keep_change(
  'name', 'email', 'phone', 'address', 'note', 'language', 'archived_at');
CREATE TRIGGER keep_change AFTER UPDATE ON site FOR EACH ROW EXECUTE FUNCTION keep_change(
  'customer_id', 'name', 'address_line', 'locality', 'postcode', 'country', 'latitude', 'longitude',
  'time_zone', 'supply', 'region', 'archived_at');
CREATE TRIGGER keep_change AFTER UPDATE OF note, hardware_revision ON unit FOR EACH ROW
  EXECUTE FUNCTION keep_change('note', 'hardware_revision');
CREATE TRIGGER keep_change AFTER UPDATE ON instrument FOR EACH ROW EXECUTE FUNCTION keep_change(
  'reference', 'name', 'serial', 'accuracy', 'range_max', 'resolution', 'torque_tool',
  'interval_months', 'interval_cycles', 'retired_on');
CREATE TRIGGER keep_change AFTER UPDATE ON person FOR EACH ROW EXECUTE FUNCTION keep_change(
  'name', 'email', 'roles', 'active', 'language');

-- Merges ------------------------------------------------------------------------------------------
CREATE TABLE "record_merge" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL CHECK ("kind" IN ('customer', 'site')),
    "from_id" UUID NOT NULL,
    "into_id" UUID NOT NULL,
    "moved" JSONB NOT NULL DEFAULT '[]',
    "filled" JSONB NOT NULL DEFAULT '{}',
    "from_version" INTEGER,
    "into_version" INTEGER,
    "was_archived_at" TIMESTAMPTZ(3),
    "person_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "undone_at" TIMESTAMPTZ(3),
    "undone_by_id" UUID,

    CONSTRAINT "record_merge_pkey" PRIMARY KEY ("firm_id","id"),
    CHECK ("from_id" <> "into_id")
);
CREATE INDEX "record_merge_firm_id_into_id_idx" ON "record_merge"("firm_id", "into_id");
CREATE UNIQUE INDEX record_merge_once ON record_merge (firm_id, from_id) WHERE undone_at IS NULL;
ALTER TABLE "record_merge" ADD CONSTRAINT "record_merge_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "record_merge" ADD CONSTRAINT "record_merge_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "record_merge" ADD CONSTRAINT "record_merge_firm_id_undone_by_id_fkey" FOREIGN KEY ("firm_id", "undone_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "customer" ADD COLUMN "merged_into_id" UUID;
ALTER TABLE "site" ADD COLUMN "merged_into_id" UUID;
ALTER TABLE "customer" ADD CONSTRAINT "customer_firm_id_merged_into_id_fkey" FOREIGN KEY ("firm_id", "merged_into_id") REFERENCES "customer"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "site" ADD CONSTRAINT "site_firm_id_merged_into_id_fkey" FOREIGN KEY ("firm_id", "merged_into_id") REFERENCES "site"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['change_record', 'record_merge'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
  END LOOP;
END $$;
GRANT SELECT, INSERT ON change_record TO holdpoint_app;
GRANT SELECT, INSERT, UPDATE ON record_merge TO holdpoint_app;

-- The merge that is under way in this transaction, one way or back.
CREATE FUNCTION is_merging(p_firm uuid, p_from uuid, p_into uuid) RETURNS boolean LANGUAGE sql STABLE AS $$
  SELECT EXISTS (SELECT FROM record_merge m WHERE m.firm_id = p_firm
    AND m.id = nullif(current_setting('app.merge_id', true), '')::uuid
    AND (p_from, p_into) IN ((m.from_id, m.into_id), (m.into_id, m.from_id)))
$$;

-- Moves whatever points at one row of a table to another, through every foreign key there is, so that a
-- table that is added later is not forgotten. Answers with the keys of what was moved, and the version
-- each has since; with such a list it moves those rows and no others.
CREATE FUNCTION move_references(p_table regclass, p_firm uuid, p_from uuid, p_into uuid,
                                p_leave text[], p_only jsonb DEFAULT NULL) RETURNS jsonb LANGUAGE plpgsql AS $$
DECLARE
  v_link record;
  v_rows jsonb;
  v_moved jsonb := '[]';
BEGIN
  FOR v_link IN
    SELECT child.relname AS name, link.attname AS link, key.columns,
      EXISTS (SELECT FROM pg_attribute v WHERE v.attrelid = child.oid AND v.attname = 'version') AS versioned
    FROM pg_constraint c
      JOIN pg_class child ON child.oid = c.conrelid
      JOIN pg_attribute link ON link.attrelid = c.conrelid AND link.attnum = ANY (c.conkey)
        AND link.attname <> 'firm_id'
      CROSS JOIN LATERAL (
        SELECT string_agg(format('%I::text', a.attname), ' || ''/'' || ' ORDER BY a.attnum) AS columns
        FROM pg_index i JOIN pg_attribute a ON a.attrelid = i.indrelid AND a.attnum = ANY (i.indkey)
        WHERE i.indrelid = c.conrelid AND i.indisprimary AND a.attname <> 'firm_id') key
    WHERE c.contype = 'f' AND c.confrelid = p_table AND child.relname <> ALL (p_leave)
    ORDER BY child.relname, link.attname
  LOOP
    EXECUTE format('WITH moved AS (UPDATE %1$I SET %2$I = $1 %4$s
        WHERE firm_id = $2 AND %2$I = $3 AND ($4 IS NULL OR %3$s IN (
          SELECT entry ->> ''key'' FROM jsonb_array_elements($4) part,
            jsonb_array_elements(part -> ''rows'') entry
          WHERE part ->> ''table'' = %1$L AND part ->> ''column'' = %2$L))
        RETURNING %3$s AS key, %5$s AS version)
      SELECT jsonb_agg(jsonb_build_object(''key'', key, ''version'', version)) FROM moved',
      v_link.name, v_link.link, v_link.columns,
      CASE WHEN v_link.versioned THEN ', version = version + 1' ELSE '' END,
      CASE WHEN v_link.versioned THEN 'version' ELSE 'NULL::integer' END)
      INTO v_rows USING p_into, p_firm, p_from, p_only;
    IF v_rows IS NOT NULL THEN
      v_moved := v_moved || jsonb_build_object('table', v_link.name, 'column', v_link.link, 'rows', v_rows);
    END IF;
  END LOOP;
  RETURN v_moved;
END $$;

-- How many of the rows that a merge moved have since been changed or moved on, by table.
CREATE FUNCTION changed_since_merge(p_firm uuid, p_into uuid, p_moved jsonb)
  RETURNS TABLE (name text, changed integer) LANGUAGE plpgsql STABLE AS $$
DECLARE
  v_part jsonb;
  v_key text;
  v_same integer;
BEGIN
  FOR v_part IN SELECT * FROM jsonb_array_elements(p_moved) LOOP
    SELECT string_agg(format('t.%I::text', a.attname), ' || ''/'' || ' ORDER BY a.attnum) INTO v_key
      FROM pg_index i JOIN pg_attribute a ON a.attrelid = i.indrelid AND a.attnum = ANY (i.indkey)
      WHERE i.indrelid = (v_part ->> 'table')::regclass AND i.indisprimary AND a.attname <> 'firm_id';
    EXECUTE format('SELECT count(*) FROM jsonb_array_elements($1) moved
        JOIN %I t ON t.firm_id = $2 AND %s = moved ->> ''key''
      WHERE t.%I = $3 AND (moved ->> ''version'' IS NULL
        OR moved ->> ''version'' = to_jsonb(t) ->> ''version'')',
      v_part ->> 'table', v_key, v_part ->> 'column')
      INTO v_same USING v_part -> 'rows', p_firm, p_into;
    name := v_part ->> 'table';
    changed := jsonb_array_length(v_part -> 'rows') - v_same;
    IF changed > 0 THEN RETURN NEXT; END IF;
  END LOOP;
END $$;

-- A merge is the one way in which kept rows, installed units and jobs come to another site: it is the
-- same place under another reference.
CREATE FUNCTION is_kept_at_its_site() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'UPDATE' AND to_jsonb(NEW) - 'site_id' = to_jsonb(OLD) - 'site_id'
     AND is_merging(OLD.firm_id, OLD.site_id, NEW.site_id) THEN
    RETURN NEW;
  END IF;
  RAISE EXCEPTION '% rows are kept as they were written', TG_TABLE_NAME
    USING ERRCODE = 'insufficient_privilege', CONSTRAINT = TG_TABLE_NAME || '_kept';
END $$;
DROP TRIGGER kept ON survey;
DROP TRIGGER kept ON unit_event;
CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON survey FOR EACH ROW EXECUTE FUNCTION is_kept_at_its_site();
CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON unit_event FOR EACH ROW EXECUTE FUNCTION is_kept_at_its_site();
GRANT UPDATE (site_id) ON survey, unit_event, retest_job TO holdpoint_app;

CREATE OR REPLACE FUNCTION unit_stays_until_removed() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state = 'installed' AND NEW.state = 'installed' AND OLD.site_id <> NEW.site_id
     AND NOT is_merging(OLD.firm_id, OLD.site_id, NEW.site_id) THEN
    RAISE EXCEPTION 'unit % is installed at another site', OLD.serial
      USING ERRCODE = 'check_violation', CONSTRAINT = 'unit_live_at_one_site';
  END IF;
  RETURN NEW;
END $$;

CREATE OR REPLACE FUNCTION job_closes_only_proven() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  v_close close_out;
  v_fault text;
BEGIN
  IF TG_OP = 'INSERT' THEN
    IF NEW.state <> 'open' THEN
      RAISE EXCEPTION 'a job begins open' USING ERRCODE = 'check_violation', CONSTRAINT = 'job_begins_open';
    END IF;
    RETURN NEW;
  END IF;
  IF NEW.plan_version_id <> OLD.plan_version_id OR (NEW.site_id <> OLD.site_id
     AND NOT is_merging(OLD.firm_id, OLD.site_id, NEW.site_id)) THEN
    RAISE EXCEPTION 'a job keeps its plan version and its site'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'job_pinned';
  END IF;
  IF NEW.state = 'closed' AND (OLD.state <> 'closed' OR NEW.close_out_id <> OLD.close_out_id) THEN
    SELECT * INTO v_close FROM close_out WHERE firm_id = NEW.firm_id AND id = NEW.close_out_id
      AND job_id = NEW.id AND plan_version_id = NEW.plan_version_id;
    v_fault := CASE WHEN v_close.id IS NULL THEN 'there is no evaluation of it'
      WHEN EXISTS (SELECT FROM reopening r WHERE r.firm_id = NEW.firm_id AND r.close_out_id = v_close.id)
        THEN 'that evaluation was reopened'
      ELSE close_out_fault(v_close) END;
    IF v_fault IS NOT NULL THEN
      RAISE EXCEPTION 'the job cannot be closed: %', v_fault
        USING ERRCODE = 'check_violation', CONSTRAINT = 'job_closes_only_proven';
    END IF;
  END IF;
  IF OLD.state = 'closed' AND NEW.state <> 'closed' AND NOT EXISTS (
    SELECT FROM reopening r JOIN ledger_entry e
      ON e.firm_id = r.firm_id AND e.job_id = r.job_id AND e.seq = r.ledger_seq
    WHERE r.firm_id = OLD.firm_id AND r.close_out_id = OLD.close_out_id AND e.kind = 'job.reopened') THEN
    RAISE EXCEPTION 'a closed job is reopened only on the record'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'job_reopens_on_record';
  END IF;
  RETURN NEW;
END $$;
