-- Mails lie as files too where no mail server is set, so whoever empties mails is told which. And what
-- works with the owner's rights finds its tables in the schema, before any temporary ones.
CREATE OR REPLACE FUNCTION erase_customer(p_customer uuid) RETURNS jsonb
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  v_firm uuid := current_firm();
  v_customers uuid[];
  v_sites uuid[];
  v_jobs uuid[];
  v_words text[];
  v_mails uuid[];
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
  UPDATE record_merge SET filled = '{}' WHERE firm_id = v_firm
    AND (from_id = ANY (v_customers || v_sites) OR into_id = ANY (v_customers || v_sites));
  DELETE FROM csv_import_row WHERE firm_id = v_firm AND subject_id = ANY (v_customers || v_sites);
  DELETE FROM idempotency_key WHERE firm_id = v_firm AND response IS NOT NULL
    AND response <> without_words(response, v_words);
  UPDATE update_round SET proposal = without_words(proposal, v_words)
    WHERE firm_id = v_firm AND proposal <> without_words(proposal, v_words);
  UPDATE due_list_record SET entries = without_words(entries, v_words)
    WHERE firm_id = v_firm AND entries <> without_words(entries, v_words);
  RETURN jsonb_build_object('customers', cardinality(v_customers), 'sites', cardinality(v_sites),
    'jobs', to_jsonb(v_jobs), 'mails', to_jsonb(v_mails));
END $$;

DROP FUNCTION forget_old(text, timestamptz, integer);
CREATE FUNCTION forget_old(p_kind text, p_before timestamptz, p_most integer) RETURNS uuid[]
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  v_firm uuid := current_firm();
  v_ids uuid[];
BEGIN
  IF p_kind = 'mails' THEN
    WITH old AS (SELECT id FROM mail WHERE firm_id = v_firm AND created_at < p_before
        AND state NOT IN ('waiting', 'held') AND text_body <> 'Erased' LIMIT p_most),
      gone AS (DELETE FROM mail_attachment USING old
        WHERE mail_attachment.firm_id = v_firm AND mail_id = old.id),
      emptied AS (UPDATE mail SET recipient = 'Erased', subject = 'Erased', text_body = 'Erased',
        html_body = NULL, last_error = NULL FROM old
        WHERE mail.firm_id = v_firm AND mail.id = old.id RETURNING mail.id)
    SELECT array_agg(id) INTO v_ids FROM emptied;
  ELSIF p_kind = 'messages' THEN
    WITH emptied AS (UPDATE job_message SET text = 'Erased' WHERE firm_id = v_firm AND id IN (
      SELECT id FROM job_message WHERE firm_id = v_firm AND written_at < p_before
        AND text <> 'Erased' LIMIT p_most) RETURNING id)
    SELECT array_agg(id) INTO v_ids FROM emptied;
  ELSIF p_kind = 'changes' THEN
    WITH gone AS (DELETE FROM change_record WHERE firm_id = v_firm AND id IN (
      SELECT id FROM change_record c WHERE firm_id = v_firm AND at < p_before AND NOT EXISTS (
        SELECT FROM change_record u WHERE u.firm_id = v_firm AND u.undoes_id = c.id) LIMIT p_most)
      RETURNING id)
    SELECT array_agg(id) INTO v_ids FROM gone;
  ELSE
    RAISE EXCEPTION 'nothing of the kind % is forgotten here', p_kind USING ERRCODE = 'check_violation';
  END IF;
  RETURN coalesce(v_ids, '{}');
END $$;
REVOKE ALL ON FUNCTION forget_old(text, timestamptz, integer) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION forget_old(text, timestamptz, integer) TO holdpoint_app;
