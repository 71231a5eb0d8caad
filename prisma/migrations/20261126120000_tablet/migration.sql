-- What tablets kept without signal. A device's operations form an unbroken row; each is stored once,
-- with its effect or with the reason why it has none yet.
CREATE TABLE "tablet_device" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "last_seq" INTEGER NOT NULL DEFAULT 0,
    "last_hash" TEXT NOT NULL,
    "first_seen_at" TIMESTAMPTZ(3) NOT NULL,
    "last_seen_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "tablet_device_pkey" PRIMARY KEY ("firm_id","id")
);

CREATE TABLE "tablet_op" (
    "firm_id" UUID NOT NULL,
    "op_id" UUID NOT NULL,
    "device_id" UUID NOT NULL,
    "device_seq" INTEGER NOT NULL,
    "job_id" UUID,
    "person_id" UUID,
    "sent_by_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "order_seen" INTEGER NOT NULL,
    "photo_sha256" TEXT[],
    "body" TEXT NOT NULL,
    "body_sha256" TEXT NOT NULL,
    "outcome" TEXT NOT NULL,
    "reply" JSONB NOT NULL,
    "chain_broken" BOOLEAN NOT NULL,
    "differs" BOOLEAN NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL,
    "decided_at" TIMESTAMPTZ(3),
    "decided_by_id" UUID,
    "decision" TEXT,
    "decision_reason" TEXT,
    "decision_reply" JSONB,

    CONSTRAINT "tablet_op_pkey" PRIMARY KEY ("firm_id","op_id")
);

CREATE TABLE "tablet_quarantine" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "op_id" UUID NOT NULL,
    "device_id" UUID NOT NULL,
    "device_seq" INTEGER NOT NULL,
    "sent_by_id" UUID NOT NULL,
    "body" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "sha256" TEXT NOT NULL,
    "why" TEXT NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "tablet_quarantine_pkey" PRIMARY KEY ("firm_id","id")
);

-- How long a stage took, for planning the next visits.
CREATE TABLE "stage_time" (
    "firm_id" UUID NOT NULL,
    "op_id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "stage_id" TEXT NOT NULL,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3) NOT NULL,
    "active_ms" INTEGER NOT NULL,
    "person_id" UUID NOT NULL,
    "device_id" UUID NOT NULL,

    CONSTRAINT "stage_time_pkey" PRIMARY KEY ("firm_id","op_id")
);

CREATE UNIQUE INDEX "tablet_op_firm_id_device_id_device_seq_key" ON "tablet_op"("firm_id", "device_id", "device_seq");
CREATE INDEX "tablet_op_firm_id_job_id_idx" ON "tablet_op"("firm_id", "job_id");
CREATE UNIQUE INDEX "tablet_quarantine_firm_id_sha256_key" ON "tablet_quarantine"("firm_id", "sha256");
CREATE INDEX "stage_time_firm_id_job_id_idx" ON "stage_time"("firm_id", "job_id");

ALTER TABLE "tablet_device" ADD CONSTRAINT "tablet_device_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "tablet_device" ADD CONSTRAINT "tablet_device_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "tablet_op" ADD CONSTRAINT "tablet_op_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "tablet_op" ADD CONSTRAINT "tablet_op_firm_id_device_id_fkey" FOREIGN KEY ("firm_id", "device_id") REFERENCES "tablet_device"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "tablet_op" ADD CONSTRAINT "tablet_op_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "tablet_op" ADD CONSTRAINT "tablet_op_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "tablet_op" ADD CONSTRAINT "tablet_op_firm_id_sent_by_id_fkey" FOREIGN KEY ("firm_id", "sent_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "tablet_op" ADD CONSTRAINT "tablet_op_firm_id_decided_by_id_fkey" FOREIGN KEY ("firm_id", "decided_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "tablet_quarantine" ADD CONSTRAINT "tablet_quarantine_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "tablet_quarantine" ADD CONSTRAINT "tablet_quarantine_firm_id_sent_by_id_fkey" FOREIGN KEY ("firm_id", "sent_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "stage_time" ADD CONSTRAINT "stage_time_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "stage_time" ADD CONSTRAINT "stage_time_firm_id_op_id_fkey" FOREIGN KEY ("firm_id", "op_id") REFERENCES "tablet_op"("firm_id", "op_id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "stage_time" ADD CONSTRAINT "stage_time_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "stage_time" ADD CONSTRAINT "stage_time_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "stage_time" ADD CONSTRAINT "stage_time_firm_id_device_id_fkey" FOREIGN KEY ("firm_id", "device_id") REFERENCES "tablet_device"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- What waits for the office is few among many.
CREATE INDEX tablet_op_undecided ON tablet_op (firm_id, op_id)
  WHERE outcome = 'held' AND decided_at IS NULL;

ALTER TABLE tablet_device
  ADD CHECK (last_seq >= 0), ADD CHECK (last_hash ~ '^[0-9a-f]{64}$');
ALTER TABLE tablet_op
  ADD CHECK (device_seq > 0),
  ADD CHECK (kind IN ('answer', 'stage-time', 'snag', 'close-out')),
  ADD CHECK (outcome IN ('stored', 'held')),
  ADD CHECK (outcome = 'held' OR (job_id IS NOT NULL AND person_id IS NOT NULL)),
  ADD CHECK (octet_length(body) <= 2097152),
  ADD CHECK (body_sha256 = encode(sha256(convert_to(body, 'UTF8')), 'hex')),
  ADD CHECK (decision IN ('applied', 'dismissed')),
  ADD CHECK (num_nulls(decided_at, decided_by_id, decision) IN (0, 3)),
  ADD CHECK (decision IS NULL OR outcome = 'held'),
  ADD CHECK (decision <> 'dismissed' OR decision_reason IS NOT NULL);
ALTER TABLE tablet_quarantine ADD CHECK (octet_length(body) <= 65536);
ALTER TABLE stage_time ADD CHECK (started_at <= ended_at), ADD CHECK (active_ms >= 0);

-- An operation stays as it came. The office decides once, and only on what is held.
CREATE FUNCTION tablet_op_decided_once() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
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
CREATE TRIGGER decided_once BEFORE UPDATE ON tablet_op
  FOR EACH ROW EXECUTE FUNCTION tablet_op_decided_once();
CREATE TRIGGER kept BEFORE DELETE ON tablet_op FOR EACH ROW EXECUTE FUNCTION is_kept();

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['tablet_quarantine', 'stage_time'] LOOP
    EXECUTE format('CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON %I
                    FOR EACH ROW EXECUTE FUNCTION is_kept()', t);
  END LOOP;
  FOREACH t IN ARRAY ARRAY['tablet_op', 'tablet_quarantine', 'stage_time'] LOOP
    EXECUTE format('CREATE TRIGGER kept_whole BEFORE TRUNCATE ON %I
                    FOR EACH STATEMENT EXECUTE FUNCTION is_kept()', t);
  END LOOP;
  FOREACH t IN ARRAY ARRAY['tablet_device', 'tablet_op', 'tablet_quarantine', 'stage_time'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT, UPDATE ON tablet_device TO holdpoint_app;
GRANT SELECT, INSERT ON tablet_op, tablet_quarantine, stage_time TO holdpoint_app;
GRANT UPDATE (decided_at, decided_by_id, decision, decision_reason, decision_reply)
  ON tablet_op TO holdpoint_app;
