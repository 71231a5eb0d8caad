-- What the database refuses by itself, whatever the path: values outside their lists, double
-- bookings, a serial live at two sites, changed evidence, a broken ledger, an unproven close-out.

-- Lists of values ---------------------------------------------------------------------------------
ALTER TABLE firm ADD CHECK (unit_system IN ('metric', 'us'));
ALTER TABLE person ADD CHECK (roles <@ ARRAY['owner', 'office', 'installer', 'manager', 'auditor']);
ALTER TABLE site
  ADD CHECK (supply IN ('TN-S', 'TN-C-S', 'TT', 'split-phase')),
  ADD CHECK (latitude BETWEEN -90 AND 90 AND longitude BETWEEN -180 AND 180);
ALTER TABLE product_model
  ADD CHECK (kind IN ('battery-pack', 'inverter', 'gateway', 'meter', 'isolator')),
  ADD CHECK (firmware_scheme IN ('semver', 'dotted', 'debian'));
ALTER TABLE unit
  ADD CHECK (state IN ('received', 'installed', 'swapped', 'removed')),
  ADD CHECK ((state = 'installed') = (site_id IS NOT NULL));
ALTER TABLE unit_event ADD CHECK (kind IN ('received', 'installed', 'swapped', 'removed'));
ALTER TABLE firmware_reading ADD CHECK (source IN ('tablet', 'import', 'api'));
ALTER TABLE firmware_release ADD CHECK (severity IN ('safety', 'important', 'routine'));
ALTER TABLE plan_version ADD CHECK (state IN ('draft', 'published'));
ALTER TABLE job
  ADD CHECK (state IN ('open', 'closed', 'cancelled')),
  ADD CHECK ((state = 'closed') = (close_out_id IS NOT NULL));
ALTER TABLE visit ADD CHECK (state IN ('booked', 'cancelled')), ADD CHECK (starts_at < ends_at);
ALTER TABLE answer ADD CHECK (outcome IN ('pass', 'fail', 'marginal', 'missing', 'stale-instrument',
  'out-of-sequence', 'conceded', 'not-applicable'));
ALTER TABLE snag ADD CHECK (state IN ('open', 'mended'));
ALTER TABLE mail ADD CHECK (state IN ('waiting', 'sent', 'failed'));
ALTER TABLE photo ADD CHECK (media_type IN ('image/jpeg', 'image/png', 'image/webp'));

-- Diary -------------------------------------------------------------------------------------------
ALTER TABLE visit_booking
  ADD CHECK (num_nonnulls(crew_id, person_id, instrument_id) = 1),
  ADD CONSTRAINT visit_booking_no_overlap EXCLUDE USING gist (
    firm_id WITH =,
    (coalesce(crew_id, person_id, instrument_id)) WITH =,
    tstzrange(starts_at, ends_at) WITH &&
  );

-- Units -------------------------------------------------------------------------------------------
CREATE FUNCTION unit_stays_until_removed() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state = 'installed' AND NEW.state = 'installed' AND OLD.site_id <> NEW.site_id THEN
    RAISE EXCEPTION 'unit % is installed at another site', OLD.serial
      USING ERRCODE = 'check_violation', CONSTRAINT = 'unit_live_at_one_site';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER unit_stays_until_removed BEFORE UPDATE ON unit
  FOR EACH ROW EXECUTE FUNCTION unit_stays_until_removed();
-- The same serial may not be live twice, not even under two product models.
CREATE UNIQUE INDEX unit_live_serial ON unit (firm_id, serial) WHERE state = 'installed';

-- Plans -------------------------------------------------------------------------------------------
CREATE FUNCTION published_plan_is_frozen() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state = 'published' THEN
    RAISE EXCEPTION 'a published plan version does not change'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'plan_version_frozen';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER published_plan_is_frozen BEFORE UPDATE ON plan_version
  FOR EACH ROW EXECUTE FUNCTION published_plan_is_frozen();

-- Evidence is kept as it was written --------------------------------------------------------------
CREATE FUNCTION is_kept() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION '% rows are kept as they were written', TG_TABLE_NAME
    USING ERRCODE = 'insufficient_privilege', CONSTRAINT = TG_TABLE_NAME || '_kept';
END $$;
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['answer', 'photo', 'close_out', 'reopening', 'ledger_entry', 'unit_event',
                           'firmware_reading', 'calibration'] LOOP
    EXECUTE format('CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON %I
                    FOR EACH ROW EXECUTE FUNCTION is_kept()', t);
    EXECUTE format('CREATE TRIGGER kept_whole BEFORE TRUNCATE ON %I
                    FOR EACH STATEMENT EXECUTE FUNCTION is_kept()', t);
  END LOOP;
END $$;

-- Ledger: the text of an entry is the RFC 8785 form of
-- {"at","body","job","kind","previous","seq"}; body arrives in that form already, the other members
-- hold nothing that needs escaping, so joining the pieces gives the canonical whole.
ALTER TABLE ledger_entry
  ADD CHECK (seq > 0), ADD CHECK (kind ~ '^[a-z]+([.-][a-z]+)*$'),
  ADD CHECK (at ~ '^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$'),
  ADD CHECK (sha256 ~ '^[0-9a-f]{64}$'), ADD CHECK (octet_length(text) <= 4194304);

CREATE FUNCTION ledger_append(p_firm uuid, p_job uuid, p_kind text, p_at text, p_body text,
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
END $$;

CREATE FUNCTION ledger_entry_continues_chain() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  v_last ledger_entry;
  v_fields jsonb;
BEGIN
  SELECT * INTO v_last FROM ledger_entry e
    WHERE e.firm_id = NEW.firm_id AND e.job_id = NEW.job_id ORDER BY e.seq DESC LIMIT 1;
  v_fields := NEW.text::jsonb;
  IF NEW.seq <> coalesce(v_last.seq, 0) + 1
     OR NEW.previous <> coalesce(v_last.sha256, repeat('0', 64))
     OR NEW.sha256 <> encode(sha256(convert_to(NEW.text, 'UTF8')), 'hex')
     OR v_fields ->> 'previous' IS DISTINCT FROM NEW.previous
     OR (v_fields ->> 'seq')::integer IS DISTINCT FROM NEW.seq
     OR v_fields ->> 'job' IS DISTINCT FROM NEW.job_id::text
     OR v_fields ->> 'kind' IS DISTINCT FROM NEW.kind
     OR v_fields ->> 'at' IS DISTINCT FROM NEW.at THEN
    RAISE EXCEPTION 'the entry does not continue the ledger of its job'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'ledger_chain';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER ledger_entry_continues_chain BEFORE INSERT ON ledger_entry
  FOR EACH ROW EXECUTE FUNCTION ledger_entry_continues_chain();

-- Close-out: the evaluation must be passing, fresh, complete, and borne out by the stored answers and
-- concessions. A job is never born closed.
CREATE FUNCTION close_out_fault(p close_out) RETURNS text LANGUAGE plpgsql STABLE AS $$
DECLARE
  v_fault text;
BEGIN
  IF NOT p.passed THEN RETURN 'the evaluation did not pass'; END IF;
  IF p.answers_through <> (SELECT coalesce(max(receipt_order), 0) FROM answer
                           WHERE firm_id = p.firm_id AND job_id = p.job_id) THEN
    RETURN 'answers have arrived since the evaluation';
  END IF;
  IF NOT EXISTS (SELECT FROM ledger_entry WHERE firm_id = p.firm_id AND job_id = p.job_id
                 AND seq = p.ledger_seq AND sha256 = p.ledger_sha256 AND kind = 'job.closed') THEN
    RETURN 'the ledger does not hold the close-out';
  END IF;
  -- Every item of the pinned plan must have been evaluated.
  SELECT 'item ' || (item ->> 'id') || ' was not evaluated' INTO v_fault
    FROM plan_version v,
         jsonb_array_elements(v.document -> 'stages') stage, jsonb_array_elements(stage -> 'items') item
    WHERE v.firm_id = p.firm_id AND v.id = p.plan_version_id
      AND NOT EXISTS (SELECT FROM jsonb_array_elements(p.facts) f WHERE f ->> 'itemId' = item ->> 'id')
    LIMIT 1;
  IF v_fault IS NOT NULL THEN RETURN v_fault; END IF;
  -- Every hold point must be cleared by a stored answer or a live concession, or not apply.
  SELECT 'hold point ' || (f ->> 'itemId') || ' is not met' INTO v_fault
    FROM plan_version v,
         jsonb_array_elements(v.document -> 'stages') stage, jsonb_array_elements(stage -> 'items') item,
         jsonb_array_elements(p.facts) f
    WHERE v.firm_id = p.firm_id AND v.id = p.plan_version_id AND f ->> 'itemId' = item ->> 'id'
      AND ((item ->> 'holdPoint')::boolean OR coalesce((item ->> 'safetyCritical')::boolean, false))
      AND NOT CASE f ->> 'outcome'
        WHEN 'not-applicable' THEN true
        WHEN 'conceded' THEN NOT coalesce((item ->> 'safetyCritical')::boolean, false)
          AND EXISTS (SELECT FROM concession c WHERE c.firm_id = p.firm_id AND c.job_id = p.job_id
            AND c.id = (f ->> 'concessionId')::uuid AND c.item_id = f ->> 'itemId'
            AND c.subject = f ->> 'subject' AND c.revoked_at IS NULL)
        ELSE (f ->> 'clears')::boolean
          AND EXISTS (SELECT FROM answer a WHERE a.firm_id = p.firm_id AND a.job_id = p.job_id
            AND a.id = (f ->> 'answerId')::uuid AND a.item_id = f ->> 'itemId'
            AND a.subject = f ->> 'subject')
        END
    LIMIT 1;
  RETURN v_fault;
END $$;

CREATE FUNCTION job_closes_only_proven() RETURNS trigger LANGUAGE plpgsql AS $$
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
  IF NEW.plan_version_id <> OLD.plan_version_id OR NEW.site_id <> OLD.site_id THEN
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
CREATE TRIGGER job_closes_only_proven BEFORE INSERT OR UPDATE ON job
  FOR EACH ROW EXECUTE FUNCTION job_closes_only_proven();

-- A closed job takes no more answers; its units stay as they were evaluated.
CREATE FUNCTION job_must_be_open() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NOT EXISTS (SELECT FROM job WHERE firm_id = coalesce(NEW.firm_id, OLD.firm_id)
                 AND id = coalesce(NEW.job_id, OLD.job_id) AND state = 'open') THEN
    RAISE EXCEPTION 'the job is not open' USING ERRCODE = 'check_violation', CONSTRAINT = 'job_open';
  END IF;
  RETURN coalesce(NEW, OLD);
END $$;
CREATE TRIGGER job_must_be_open BEFORE INSERT ON answer FOR EACH ROW EXECUTE FUNCTION job_must_be_open();
CREATE TRIGGER job_must_be_open BEFORE INSERT OR UPDATE OR DELETE ON job_unit
  FOR EACH ROW EXECUTE FUNCTION job_must_be_open();
CREATE TRIGGER job_must_be_open BEFORE INSERT ON close_out
  FOR EACH ROW EXECUTE FUNCTION job_must_be_open();

-- The one who took the reading does not excuse it.
CREATE FUNCTION concession_by_another() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT FROM answer a WHERE a.firm_id = NEW.firm_id AND a.job_id = NEW.job_id
             AND a.item_id = NEW.item_id AND a.subject = NEW.subject AND a.person_id = NEW.granted_by_id) THEN
    RAISE EXCEPTION 'a concession is granted by someone who did not take the reading'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'concession_by_another';
  END IF;
  IF NOT EXISTS (SELECT FROM person WHERE firm_id = NEW.firm_id AND id = NEW.granted_by_id
                 AND 'manager' = ANY (roles) AND active) THEN
    RAISE EXCEPTION 'a concession is granted by a manager'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'concession_by_manager';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER concession_by_another BEFORE INSERT ON concession
  FOR EACH ROW EXECUTE FUNCTION concession_by_another();
