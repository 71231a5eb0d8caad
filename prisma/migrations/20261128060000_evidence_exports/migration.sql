-- Evidence of a unit, a site, a period or the whole fleet, made into a file by a run of its own. That
-- it was made, for whom and over what, stays; the file goes after some days.
CREATE TABLE "evidence_export" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "scope" JSONB NOT NULL,
    "title" TEXT NOT NULL,
    "file_name" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'making',
    "jobs_done" INTEGER NOT NULL DEFAULT 0,
    "jobs_total" INTEGER NOT NULL,
    "bytes" BIGINT,
    "sha256" TEXT,
    "problem" TEXT,
    "worker_id" UUID,
    "lease_until" TIMESTAMPTZ(3),
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "person_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "finished_at" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "evidence_export_pkey" PRIMARY KEY ("firm_id","id"),
    CHECK ("state" IN ('making', 'ready', 'failed', 'gone')),
    CHECK ("jobs_done" BETWEEN 0 AND "jobs_total"),
    CHECK ("state" NOT IN ('ready', 'gone') OR "sha256" ~ '^[0-9a-f]{64}$'),
    CHECK ("state" <> 'failed' OR "problem" IS NOT NULL)
);

-- A token (RFC 3161) that a time-stamp service gave for a signature.
CREATE TABLE "evidence_time_stamp" (
    "firm_id" UUID NOT NULL,
    "signature_id" UUID NOT NULL,
    "service" TEXT NOT NULL,
    "response" BYTEA NOT NULL,
    "stamped_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "evidence_time_stamp_pkey" PRIMARY KEY ("firm_id","signature_id")
);

-- A bag of several jobs belongs to none of them.
ALTER TABLE "evidence_signature" ALTER COLUMN "job_id" DROP NOT NULL;
CREATE INDEX "ledger_entry_sha256_idx" ON "ledger_entry"("sha256");

ALTER TABLE "evidence_export" ADD CONSTRAINT "evidence_export_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "evidence_export" ADD CONSTRAINT "evidence_export_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "evidence_time_stamp" ADD CONSTRAINT "evidence_time_stamp_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "evidence_time_stamp" ADD CONSTRAINT "evidence_time_stamp_firm_id_signature_id_fkey" FOREIGN KEY ("firm_id", "signature_id") REFERENCES "evidence_signature"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['evidence_export', 'evidence_time_stamp'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
  END LOOP;
END $$;
CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON evidence_time_stamp
  FOR EACH ROW EXECUTE FUNCTION is_kept();
CREATE TRIGGER kept_whole BEFORE TRUNCATE ON evidence_time_stamp
  FOR EACH STATEMENT EXECUTE FUNCTION is_kept();

-- Whoever holds a whole head in hand may ask whether it is known here, before any firm is: the entry
-- with that hash, and no other, is seen.
CREATE POLICY head_in_hand ON ledger_entry FOR SELECT
  USING (sha256 = (SELECT nullif(current_setting('app.ledger_head', true), '')));

GRANT SELECT, INSERT, UPDATE ON evidence_export TO holdpoint_app;
GRANT SELECT, INSERT ON evidence_time_stamp TO holdpoint_app;
