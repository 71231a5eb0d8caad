-- As before; notes of old answers go too. Where an old entry of the ledger holds a text itself in clear,
-- the row stays as it is: record and ledger would differ. Whoever was erased before this keeps them.
CREATE OR REPLACE FUNCTION erase_texts(p_firm uuid, p_jobs uuid[]) RETURNS text[] LANGUAGE plpgsql AS $$
DECLARE
  v_zeros text := repeat('0', 64);
  v_staff text[];
  v_texts text[];
  v_notes text[];
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
  -- Of a note the ledger held a plain hash before it held a salted one: the note goes, the hash stays.
  WITH theirs AS (
    SELECT a.id, a.note FROM answer a JOIN ledger_entry e ON e.firm_id = a.firm_id AND e.job_id = a.job_id
      AND e.kind = 'answer.taken' AND (e.text::jsonb #>> '{body,id}')::uuid = a.id
    WHERE a.firm_id = p_firm AND a.job_id = ANY (p_jobs) AND a.note IS NOT NULL
      AND jsonb_typeof(e.text::jsonb #> '{body,noteSha256}') = 'string'), emptied AS (
    UPDATE answer SET note = 'Erased' FROM theirs
      WHERE answer.firm_id = p_firm AND answer.id = theirs.id)
  SELECT array_agg(note) INTO v_notes FROM theirs;
  v_texts := v_texts || v_notes;
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
