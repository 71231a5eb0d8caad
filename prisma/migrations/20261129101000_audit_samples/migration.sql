-- An audit sample as it was drawn: what it was drawn from, how, and what came out. Jobs that close or
-- are reopened later change nothing of it; what is added are looks at its jobs and findings.
CREATE TABLE "audit_sample" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "reference" TEXT NOT NULL,
    "period_from" DATE NOT NULL,
    "period_to" DATE NOT NULL,
    "quality_limit" DOUBLE PRECISION NOT NULL,
    "seed" TEXT NOT NULL,
    "lot" TEXT[] NOT NULL,
    "letter" TEXT NOT NULL,
    "accept" INTEGER NOT NULL,
    "audit_access_id" UUID,
    "kept_by_id" UUID NOT NULL,
    "kept_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "audit_sample_pkey" PRIMARY KEY ("firm_id","id"),
    CHECK ("period_from" <= "period_to"),
    CHECK ("seed" ~ '^[A-Za-z0-9-]{4,40}$'),
    CHECK (cardinality("lot") BETWEEN 1 AND 10000),
    CHECK ("accept" >= 0)
);
CREATE TABLE "audit_sample_job" (
    "firm_id" UUID NOT NULL,
    "sample_id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "closed_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "audit_sample_job_pkey" PRIMARY KEY ("firm_id","sample_id","job_id"),
    CHECK ("position" > 0)
);
CREATE TABLE "audit_sample_look" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "sample_id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "remark" TEXT,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "audit_sample_look_pkey" PRIMARY KEY ("firm_id","id")
);
ALTER TABLE "nonconformance" ADD COLUMN "audit_sample_id" UUID,
  ADD CHECK ("audit_sample_id" IS NULL OR "job_id" IS NOT NULL);

CREATE UNIQUE INDEX "audit_sample_firm_id_reference_key" ON "audit_sample"("firm_id", "reference");
CREATE UNIQUE INDEX "audit_sample_firm_id_kept_by_id_period_from_period_to_quali_key" ON "audit_sample"("firm_id", "kept_by_id", "period_from", "period_to", "quality_limit", "seed");
CREATE UNIQUE INDEX "audit_sample_job_firm_id_sample_id_position_key" ON "audit_sample_job"("firm_id", "sample_id", "position");
CREATE INDEX "audit_sample_look_firm_id_sample_id_id_idx" ON "audit_sample_look"("firm_id", "sample_id", "id");
CREATE INDEX "nonconformance_firm_id_audit_sample_id_idx" ON "nonconformance"("firm_id", "audit_sample_id");

ALTER TABLE "audit_sample" ADD CONSTRAINT "audit_sample_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_sample" ADD CONSTRAINT "audit_sample_firm_id_audit_access_id_fkey" FOREIGN KEY ("firm_id", "audit_access_id") REFERENCES "audit_access"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_sample" ADD CONSTRAINT "audit_sample_firm_id_kept_by_id_fkey" FOREIGN KEY ("firm_id", "kept_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_sample_job" ADD CONSTRAINT "audit_sample_job_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_sample_job" ADD CONSTRAINT "audit_sample_job_firm_id_sample_id_fkey" FOREIGN KEY ("firm_id", "sample_id") REFERENCES "audit_sample"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_sample_job" ADD CONSTRAINT "audit_sample_job_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_sample_look" ADD CONSTRAINT "audit_sample_look_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_sample_look" ADD CONSTRAINT "audit_sample_look_firm_id_sample_id_job_id_fkey" FOREIGN KEY ("firm_id", "sample_id", "job_id") REFERENCES "audit_sample_job"("firm_id", "sample_id", "job_id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_sample_look" ADD CONSTRAINT "audit_sample_look_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "nonconformance" ADD CONSTRAINT "nonconformance_firm_id_audit_sample_id_fkey" FOREIGN KEY ("firm_id", "audit_sample_id") REFERENCES "audit_sample"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
-- A finding of a sample is on one of its jobs.
ALTER TABLE "nonconformance" ADD CONSTRAINT "nonconformance_of_a_drawn_job" FOREIGN KEY ("firm_id", "audit_sample_id", "job_id") REFERENCES "audit_sample_job"("firm_id", "sample_id", "job_id") ON DELETE RESTRICT ON UPDATE RESTRICT;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['audit_sample', 'audit_sample_job', 'audit_sample_look'] LOOP
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
GRANT SELECT, INSERT ON audit_sample, audit_sample_job, audit_sample_look TO holdpoint_app;

-- The lot of a sample that another drew names jobs outside.
SELECT keep_in_audit_scope('audit_sample', 'kept_by_id = (SELECT audited_person((SELECT audit_scope())))');
SELECT keep_in_audit_scope('audit_sample_job');
SELECT keep_in_audit_scope('audit_sample_look');
