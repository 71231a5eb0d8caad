-- One a day and firm: the hash of all heads of the ledger, chained. The text says which heads moved
-- since the one before, so that any of them can be worked out again.
CREATE TABLE "ledger_checkpoint" (
    "firm_id" UUID NOT NULL,
    "day" DATE NOT NULL,
    "number" INTEGER NOT NULL,
    "jobs" INTEGER NOT NULL,
    "text" TEXT NOT NULL,
    "previous" TEXT NOT NULL,
    "sha256" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "ledger_checkpoint_pkey" PRIMARY KEY ("firm_id","day")
);

-- A key that evidence is signed with; the newest one signs. The private key is kept sealed.
CREATE TABLE "evidence_key" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "certificate" TEXT NOT NULL,
    "sha256" TEXT NOT NULL,
    "sealed_key" BYTEA NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "evidence_key_pkey" PRIMARY KEY ("firm_id","id")
);

-- What was signed, once for each manifest: the same bag leaves with the same signature.
CREATE TABLE "evidence_signature" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "key_id" UUID NOT NULL,
    "manifest_sha256" TEXT NOT NULL,
    "signature" BYTEA NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "evidence_signature_pkey" PRIMARY KEY ("firm_id","id")
);

CREATE UNIQUE INDEX "ledger_checkpoint_firm_id_number_key" ON "ledger_checkpoint"("firm_id", "number");
CREATE UNIQUE INDEX "evidence_signature_firm_id_manifest_sha256_key" ON "evidence_signature"("firm_id", "manifest_sha256");

ALTER TABLE "ledger_checkpoint" ADD CONSTRAINT "ledger_checkpoint_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "evidence_key" ADD CONSTRAINT "evidence_key_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "evidence_signature" ADD CONSTRAINT "evidence_signature_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "evidence_signature" ADD CONSTRAINT "evidence_signature_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "evidence_signature" ADD CONSTRAINT "evidence_signature_firm_id_key_id_fkey" FOREIGN KEY ("firm_id", "key_id") REFERENCES "evidence_key"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE ledger_checkpoint
  ADD CHECK (number > 0), ADD CHECK (jobs >= 0), ADD CHECK (sha256 ~ '^[0-9a-f]{64}$');
ALTER TABLE evidence_key ADD CHECK (sha256 ~ '^[0-9a-f]{64}$');
ALTER TABLE evidence_signature ADD CHECK (manifest_sha256 ~ '^[0-9a-f]{64}$');

CREATE FUNCTION ledger_checkpoint_continues_chain() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  v_last ledger_checkpoint;
  v_fields jsonb;
BEGIN
  SELECT * INTO v_last FROM ledger_checkpoint c
    WHERE c.firm_id = NEW.firm_id ORDER BY c.number DESC LIMIT 1;
  v_fields := NEW.text::jsonb;
  IF NEW.number <> coalesce(v_last.number, 0) + 1
     OR NEW.day <= v_last.day
     OR NEW.previous <> coalesce(v_last.sha256, repeat('0', 64))
     OR NEW.sha256 <> encode(sha256(convert_to(NEW.text, 'UTF8')), 'hex')
     OR v_fields ->> 'firm' IS DISTINCT FROM NEW.firm_id::text
     OR v_fields ->> 'day' IS DISTINCT FROM NEW.day::text
     OR (v_fields ->> 'number')::integer IS DISTINCT FROM NEW.number
     OR (v_fields ->> 'jobs')::integer IS DISTINCT FROM NEW.jobs
     OR v_fields ->> 'previous' IS DISTINCT FROM NEW.previous THEN
    RAISE EXCEPTION 'the checkpoint does not continue the chain of its firm'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'ledger_checkpoint_chain';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER ledger_checkpoint_continues_chain BEFORE INSERT ON ledger_checkpoint
  FOR EACH ROW EXECUTE FUNCTION ledger_checkpoint_continues_chain();

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['ledger_checkpoint', 'evidence_key', 'evidence_signature'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
    EXECUTE format('CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON %I
                    FOR EACH ROW EXECUTE FUNCTION is_kept()', t);
    EXECUTE format('CREATE TRIGGER kept_whole BEFORE TRUNCATE ON %I
                    FOR EACH STATEMENT EXECUTE FUNCTION is_kept()', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT ON ledger_checkpoint, evidence_key, evidence_signature TO holdpoint_app;
