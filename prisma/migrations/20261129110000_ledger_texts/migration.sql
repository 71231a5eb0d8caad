-- What a person may have written (the name beside a signature, reasons, notes) stands in new entries of
-- the ledger as the SHA-256 of a salt followed by the text, and salt and text lie here, beside it: so they
-- can be taken away and the ledger still verifies. Old entries stay as they were written.
CREATE TABLE "ledger_text" (
    "firm_id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "seq" INTEGER NOT NULL,
    "path" TEXT NOT NULL,
    "salt" TEXT,
    "text" TEXT,

    CONSTRAINT "ledger_text_pkey" PRIMARY KEY ("firm_id","job_id","seq","path")
);
ALTER TABLE "ledger_text" ADD CONSTRAINT "ledger_text_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "ledger_text" ADD CONSTRAINT "ledger_text_firm_id_job_id_seq_fkey" FOREIGN KEY ("firm_id", "job_id", "seq") REFERENCES "ledger_entry"("firm_id", "job_id", "seq") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "ledger_text" ADD CHECK (path ~ '^(/[A-Za-z0-9]+)+$'), ADD CHECK (salt ~ '^[0-9a-f]{32,128}$'),
  ADD CHECK ((salt IS NULL) = (text IS NULL));
ALTER TABLE "ledger_text" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "ledger_text" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "ledger_text" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT ON "ledger_text" TO holdpoint_app;

-- Only what the ledger names comes in.
CREATE FUNCTION ledger_text_is_named() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  v_named text;
BEGIN
  SELECT e.text::jsonb #>> (ARRAY['body'] || string_to_array(substr(NEW.path, 2), '/') || ARRAY['salted'])
    INTO v_named FROM ledger_entry e
    WHERE e.firm_id = NEW.firm_id AND e.job_id = NEW.job_id AND e.seq = NEW.seq;
  IF NEW.text IS NULL OR v_named IS DISTINCT FROM encode(sha256(convert_to(NEW.salt || NEW.text, 'UTF8')), 'hex') THEN
    RAISE EXCEPTION 'the ledger names no such text'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'ledger_text_named';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER ledger_text_is_named BEFORE INSERT ON ledger_text
  FOR EACH ROW EXECUTE FUNCTION ledger_text_is_named();

-- Kept as written; only an erasure, which runs with the owner's rights, empties a text.
CREATE FUNCTION is_erasing() RETURNS boolean LANGUAGE sql STABLE AS $$
  SELECT coalesce(current_setting('app.erasing', true), '') = 'on' AND current_user <> 'holdpoint_app'
$$;
CREATE OR REPLACE FUNCTION is_kept() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'UPDATE' AND is_erasing() THEN RETURN NEW; END IF;
  RAISE EXCEPTION '% rows are kept as they were written', TG_TABLE_NAME
    USING ERRCODE = 'insufficient_privilege', CONSTRAINT = TG_TABLE_NAME || '_kept';
END $$;
CREATE OR REPLACE FUNCTION is_kept_at_its_site() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'UPDATE' AND (is_erasing() OR to_jsonb(NEW) - 'site_id' = to_jsonb(OLD) - 'site_id'
     AND is_merging(OLD.firm_id, OLD.site_id, NEW.site_id)) THEN
    RETURN NEW;
  END IF;
  RAISE EXCEPTION '% rows are kept as they were written', TG_TABLE_NAME
    USING ERRCODE = 'insufficient_privilege', CONSTRAINT = TG_TABLE_NAME || '_kept';
END $$;
CREATE OR REPLACE FUNCTION tablet_op_decided_once() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF is_erasing() THEN RETURN NEW; END IF;
  IF OLD.outcome <> 'held' OR OLD.decided_at IS NOT NULL OR NEW.decided_at IS NULL
     OR (to_jsonb(NEW) - ARRAY['decided_at', 'decided_by_id', 'decision', 'decision_reason',
                               'decision_reply'])
        <> (to_jsonb(OLD) - ARRAY['decided_at', 'decided_by_id', 'decision', 'decision_reason',
                                  'decision_reply']) THEN
    RAISE EXCEPTION 'a held operation is decided once, and nothing else of it changes'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'tablet_op_decided_once';
  END IF;
  RETURN NEW;
END $$;

CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON ledger_text FOR EACH ROW EXECUTE FUNCTION is_kept();
CREATE TRIGGER kept_whole BEFORE TRUNCATE ON ledger_text FOR EACH STATEMENT EXECUTE FUNCTION is_kept();

-- As before; texts that the body names by their hash come with it, as [{"path","salt","text"}].
DROP FUNCTION ledger_append(uuid, uuid, text, text, text);
CREATE FUNCTION ledger_append(p_firm uuid, p_job uuid, p_kind text, p_at text, p_body text,
                              p_texts jsonb DEFAULT '[]',
                              OUT seq integer, OUT sha256 text) LANGUAGE plpgsql AS $$
DECLARE
  v_previous text;
  v_text text;
BEGIN
  -- One writer a job at a time: the chain has no branches.
  PERFORM 1 FROM job WHERE firm_id = p_firm AND id = p_job FOR NO KEY UPDATE;
  IF NOT FOUND THEN
    RAISE EXCEPTION 'no such job' USING ERRCODE = 'foreign_key_violation';
  END IF;
  SELECT e.seq + 1, e.sha256 INTO seq, v_previous FROM ledger_entry e
    WHERE e.firm_id = p_firm AND e.job_id = p_job ORDER BY e.seq DESC LIMIT 1;
  seq := coalesce(seq, 1);
  v_previous := coalesce(v_previous, repeat('0', 64));
  v_text := '{"at":"' || p_at || '","body":' || p_body || ',"job":"' || p_job || '","kind":"' || p_kind
    || '","previous":"' || v_previous || '","seq":' || seq || '}';
  sha256 := encode(sha256(convert_to(v_text, 'UTF8')), 'hex');
  INSERT INTO ledger_entry (firm_id, job_id, seq, kind, at, text, previous, sha256)
    VALUES (p_firm, p_job, seq, p_kind, p_at, v_text, v_previous, sha256);
  IF p_texts <> '[]' THEN
    INSERT INTO ledger_text (firm_id, job_id, seq, path, salt, text)
      SELECT p_firm, p_job, ledger_append.seq, t ->> 'path', t ->> 'salt', t ->> 'text'
      FROM jsonb_array_elements(p_texts) t;
  END IF;
END $$;

-- A tablet's operation without what a person wrote; the name of one of the firm's own people stays.
CREATE FUNCTION without_texts(p_op jsonb, p_staff text[]) RETURNS jsonb LANGUAGE sql IMMUTABLE AS $$
  SELECT CASE WHEN lower(op #>> '{payload,answer,value,name}') = ANY (p_staff) THEN op
    ELSE jsonb_set(op, '{payload,answer,value,name}', '"Erased"', false) END
  FROM (SELECT jsonb_set(jsonb_set(p_op, '{payload,text}', '"Erased"', false),
    '{payload,answer,note}', '"Erased"', false) AS op) emptied
$$;

-- Empties what people wrote on these jobs, in the ledger's texts and wherever else it is kept, and hands
-- back what it said. What the firm's own people signed stays. Where an old entry of the ledger holds a text
-- in clear, its row stays as it is: record and ledger would differ.
CREATE FUNCTION erase_texts(p_firm uuid, p_jobs uuid[]) RETURNS text[] LANGUAGE plpgsql AS $$
DECLARE
  v_zeros text := repeat('0', 64);
  v_staff text[];
  v_texts text[];
  v_entry record;
BEGIN
  SELECT coalesce(array_agg(lower(name)), '{}') INTO v_staff FROM person WHERE firm_id = p_firm;
  FOR v_entry IN
    SELECT l.job_id, l.seq, e.kind, e.text::jsonb -> 'body' AS body, array_agg(l.path) AS paths,
      array_agg(l.text) AS texts
    FROM ledger_text l JOIN ledger_entry e USING (firm_id, job_id, seq)
    WHERE l.firm_id = p_firm AND l.job_id = ANY (p_jobs) AND l.text IS NOT NULL
      AND l.path NOT LIKE '%Sha256' AND NOT (l.path = '/value/name' AND lower(l.text) = ANY (v_staff))
    GROUP BY l.job_id, l.seq, e.kind, e.text
  LOOP
    v_texts := v_texts || v_entry.texts;
    UPDATE ledger_text SET salt = NULL, text = NULL WHERE firm_id = p_firm AND job_id = v_entry.job_id
      AND seq = v_entry.seq AND (path = ANY (v_entry.paths) OR path LIKE '%Sha256');
    CASE v_entry.kind
      WHEN 'answer.taken' THEN
        UPDATE answer SET body_sha256 = v_zeros,
          value = CASE WHEN '/value/name' = ANY (v_entry.paths)
            THEN jsonb_set(value, '{name}', '"Erased"') ELSE value END,
          note = CASE WHEN '/note' = ANY (v_entry.paths) THEN 'Erased' ELSE note END
          WHERE firm_id = p_firm AND id = (v_entry.body ->> 'id')::uuid;
      WHEN 'concession.granted' THEN
        UPDATE concession SET reason = 'Erased'
          WHERE firm_id = p_firm AND id = (v_entry.body ->> 'concessionId')::uuid;
      WHEN 'job.reopened' THEN
        UPDATE reopening SET reason = 'Erased' WHERE firm_id = p_firm AND job_id = v_entry.job_id
          AND close_out_id = (v_entry.body ->> 'closeOutId')::uuid;
      WHEN 'operation.dismissed' THEN
        UPDATE tablet_op SET decision_reason = 'Erased'
          WHERE firm_id = p_firm AND op_id = (v_entry.body ->> 'opId')::uuid;
      ELSE NULL;
    END CASE;
  END LOOP;
  -- The ledger holds of a snag its hash alone, now and before.
  UPDATE snag SET title = 'Erased', detail = NULL,
    mended_note = CASE WHEN mended_note IS NULL THEN NULL ELSE 'Erased' END
    WHERE firm_id = p_firm AND job_id = ANY (p_jobs);
  UPDATE tablet_op o SET body = n.body, body_sha256 = encode(sha256(convert_to(n.body, 'UTF8')), 'hex')
    FROM (SELECT op_id, without_texts(replace(body, '\u0000', '')::jsonb, v_staff)::text AS body
      FROM tablet_op WHERE firm_id = p_firm AND job_id = ANY (p_jobs)) n
    WHERE o.firm_id = p_firm AND o.op_id = n.op_id;
  UPDATE tablet_quarantine SET body = 'Erased', sha256 = v_zeros WHERE firm_id = p_firm
    AND EXISTS (SELECT FROM unnest(p_jobs) job WHERE strpos(body, job::text) > 0);
  RETURN coalesce(v_texts, '{}');
END $$;
REVOKE ALL ON FUNCTION erase_texts(uuid, uuid[]) FROM PUBLIC;

-- The customer's own words taken out of what else was written about the work; the rest of it stays.
CREATE FUNCTION erase_words(p_firm uuid, p_words text[]) RETURNS void LANGUAGE plpgsql AS $$
DECLARE
  v_place text[];
BEGIN
  FOREACH v_place SLICE 1 IN ARRAY ARRAY[['job', 'title'], ['job_document', 'name'], ['unit', 'note'],
    ['unit_event', 'note'], ['nonconformance', 'title'], ['nonconformance', 'containment'],
    ['nonconformance', 'cause'], ['nonconformance', 'correction'], ['nonconformance', 'effect_check'],
    ['effect_check', 'note'], ['effect_check', 'cause'], ['effect_check', 'correction'],
    ['warranty_registration', 'note'], ['warranty_claim', 'fault'], ['warranty_claim', 'note']] LOOP
    EXECUTE format('UPDATE %1$I SET %2$I = without_words(to_jsonb(%2$I), $2) #>> ''{}''
      WHERE firm_id = $1 AND EXISTS (SELECT FROM unnest($2) word WHERE strpos(%2$I, word) > 0)',
      v_place[1], v_place[2]) USING p_firm, p_words;
  END LOOP;
  UPDATE change_record SET before = without_words(before, p_words), after = without_words(after, p_words)
    WHERE firm_id = p_firm
      AND (before <> without_words(before, p_words) OR after <> without_words(after, p_words));
END $$;
REVOKE ALL ON FUNCTION erase_words(uuid, text[]) FROM PUBLIC;

CREATE OR REPLACE FUNCTION erase_customer(p_customer uuid) RETURNS jsonb
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  v_firm uuid := current_firm();
  v_customers uuid[];
  v_sites uuid[];
  v_jobs uuid[];
  v_words text[];
  v_mails uuid[];
  v_texts text[];
BEGIN
  WITH RECURSIVE same AS (
    SELECT id FROM customer WHERE firm_id = v_firm AND id = p_customer
    UNION SELECT c.id FROM customer c JOIN same ON c.merged_into_id = same.id WHERE c.firm_id = v_firm)
  SELECT array_agg(id) INTO v_customers FROM same;
  IF EXISTS (SELECT FROM customer WHERE firm_id = v_firm AND id = ANY (v_customers) AND archived_at IS NULL)
    OR EXISTS (SELECT FROM site WHERE firm_id = v_firm AND customer_id = ANY (v_customers)
      AND archived_at IS NULL) THEN
    RAISE EXCEPTION 'a customer is archived before it is erased' USING ERRCODE = 'check_violation';
  END IF;
  SELECT coalesce(array_agg(id), '{}') INTO v_sites FROM site
    WHERE firm_id = v_firm AND customer_id = ANY (v_customers);
  SELECT coalesce(array_agg(id), '{}') INTO v_jobs FROM job
    WHERE firm_id = v_firm AND site_id = ANY (v_sites);
  -- Longest first: a street stands in an address of several lines. A short name is many people's.
  SELECT coalesce(array_agg(word ORDER BY length(word) DESC), '{}') INTO v_words FROM (
    SELECT unnest(ARRAY[email, phone, address]) AS word, 5 AS least FROM customer
      WHERE firm_id = v_firm AND id = ANY (v_customers)
    UNION SELECT unnest(ARRAY[name]), 8 FROM customer
      WHERE firm_id = v_firm AND id = ANY (v_customers)
    UNION SELECT unnest(ARRAY[name, address_line]), 8 FROM site
      WHERE firm_id = v_firm AND id = ANY (v_sites)) words WHERE length(word) >= least;

  -- Until the end of this function, what is kept as written gives way (is_erasing).
  PERFORM set_config('app.erasing', 'on', true);
  v_texts := erase_texts(v_firm, v_jobs);

  UPDATE customer SET name = 'Erased', email = NULL, phone = NULL, address = NULL, note = NULL,
    language = NULL, email_failing_at = NULL, email_failing_reason = NULL, version = version + 1
    WHERE firm_id = v_firm AND id = ANY (v_customers);
  -- A tenth of a degree is some ten kilometres: the region and the grid stay, the door goes.
  UPDATE site SET name = NULL, address_line = 'Erased', postcode = split_part(postcode, ' ', 1),
    latitude = round(latitude::numeric, 1), longitude = round(longitude::numeric, 1),
    version = version + 1 WHERE firm_id = v_firm AND id = ANY (v_sites);
  UPDATE visit SET note = NULL WHERE firm_id = v_firm AND job_id = ANY (v_jobs) AND note IS NOT NULL;
  UPDATE job_message SET text = 'Erased' WHERE firm_id = v_firm AND job_id = ANY (v_jobs);
  UPDATE handover_link SET revoked_at = now() WHERE firm_id = v_firm AND job_id = ANY (v_jobs)
    AND revoked_at IS NULL;

  WITH theirs AS (
    UPDATE mail SET recipient = 'Erased', subject = 'Erased', text_body = 'Erased', html_body = NULL,
      last_error = NULL, state = CASE WHEN state IN ('waiting', 'held') THEN 'cancelled' ELSE state END
    WHERE firm_id = v_firm AND (customer_id = ANY (v_customers)
      OR EXISTS (SELECT FROM unnest(v_words) word
        WHERE strpos(concat_ws(' ', recipient, subject, text_body), word) > 0))
    RETURNING id), gone AS (
    DELETE FROM mail_attachment USING theirs
      WHERE mail_attachment.firm_id = v_firm AND mail_id = theirs.id)
  SELECT coalesce(array_agg(id), '{}') INTO v_mails FROM theirs;

  LOOP
    DELETE FROM change_record c WHERE firm_id = v_firm AND subject_id = ANY (v_customers || v_sites)
      AND NOT EXISTS (SELECT FROM change_record u WHERE u.firm_id = v_firm AND u.undoes_id = c.id);
    EXIT WHEN NOT FOUND;
  END LOOP;
  PERFORM erase_words(v_firm, v_words);
  UPDATE record_merge SET filled = '{}' WHERE firm_id = v_firm
    AND (from_id = ANY (v_customers || v_sites) OR into_id = ANY (v_customers || v_sites));
  DELETE FROM csv_import_row WHERE firm_id = v_firm AND subject_id = ANY (v_customers || v_sites);
  -- A reply kept for a repeated request says again what was written.
  DELETE FROM idempotency_key k WHERE firm_id = v_firm AND response IS NOT NULL
    AND (response <> without_words(response, v_words) OR EXISTS (SELECT FROM unnest(v_texts) word
      WHERE length(word) >= 8 AND strpos(k.response::text, trim('"' FROM to_jsonb(word)::text)) > 0));
  UPDATE update_round SET proposal = without_words(proposal, v_words)
    WHERE firm_id = v_firm AND proposal <> without_words(proposal, v_words);
  UPDATE due_list_record SET entries = without_words(entries, v_words)
    WHERE firm_id = v_firm AND entries <> without_words(entries, v_words);
  PERFORM set_config('app.erasing', '', true);
  RETURN jsonb_build_object('customers', cardinality(v_customers), 'sites', cardinality(v_sites),
    'jobs', to_jsonb(v_jobs), 'mails', to_jsonb(v_mails));
END $$;
