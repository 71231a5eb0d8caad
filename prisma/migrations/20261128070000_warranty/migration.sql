-- Warranty: terms per product model in versions that never change, one registration a unit, meter
-- and temperature readings, and claims.
CREATE TABLE "warranty_terms" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "model_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "applies_from" DATE NOT NULL,
    "years" INTEGER NOT NULL,
    "throughput_kwh" DOUBLE PRECISION,
    "register_within_days" INTEGER,
    "evidence_needed" BOOLEAN NOT NULL,
    "firmware_level" TEXT,
    "firmware_key" BIGINT,
    "firmware_within_days" INTEGER,
    "temperature_lowest" DOUBLE PRECISION,
    "temperature_highest" DOUBLE PRECISION,
    "end_moves_to_working_day" BOOLEAN NOT NULL,
    "source" TEXT,
    "created_by_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "warranty_terms_pkey" PRIMARY KEY ("firm_id","id")
);
CREATE TABLE "warranty_registration" (
    "firm_id" UUID NOT NULL,
    "unit_id" UUID NOT NULL,
    "registered_on" DATE NOT NULL,
    "reference" TEXT NOT NULL,
    "note" TEXT,
    "created_by_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "warranty_registration_pkey" PRIMARY KEY ("firm_id","unit_id")
);
CREATE TABLE "warranty_reading" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "unit_id" UUID NOT NULL,
    "read_on" DATE NOT NULL,
    "throughput_kwh" DOUBLE PRECISION,
    "temperature_lowest" DOUBLE PRECISION,
    "temperature_highest" DOUBLE PRECISION,
    "created_by_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "warranty_reading_pkey" PRIMARY KEY ("firm_id","id")
);
CREATE TABLE "warranty_claim" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "reference" TEXT NOT NULL,
    "unit_id" UUID NOT NULL,
    "job_id" UUID,
    "fault" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'draft',
    "maker_reference" TEXT,
    "note" TEXT,
    "sent_at" TIMESTAMPTZ(3),
    "answered_at" TIMESTAMPTZ(3),
    "ended_at" TIMESTAMPTZ(3),
    "created_by_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "warranty_claim_pkey" PRIMARY KEY ("firm_id","id"),
    CONSTRAINT "warranty_claim_state" CHECK ("state" IN ('draft', 'sent', 'accepted', 'refused', 'settled', 'withdrawn'))
);
CREATE UNIQUE INDEX "warranty_terms_firm_id_model_id_number_key" ON "warranty_terms"("firm_id", "model_id", "number");
CREATE UNIQUE INDEX "warranty_reading_firm_id_unit_id_read_on_key" ON "warranty_reading"("firm_id", "unit_id", "read_on");
CREATE UNIQUE INDEX "warranty_claim_firm_id_reference_key" ON "warranty_claim"("firm_id", "reference");
CREATE INDEX "warranty_claim_firm_id_unit_id_idx" ON "warranty_claim"("firm_id", "unit_id");
ALTER TABLE "warranty_terms" ADD CONSTRAINT "warranty_terms_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_terms" ADD CONSTRAINT "warranty_terms_firm_id_model_id_fkey" FOREIGN KEY ("firm_id", "model_id") REFERENCES "product_model"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_terms" ADD CONSTRAINT "warranty_terms_firm_id_created_by_id_fkey" FOREIGN KEY ("firm_id", "created_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_registration" ADD CONSTRAINT "warranty_registration_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_registration" ADD CONSTRAINT "warranty_registration_firm_id_unit_id_fkey" FOREIGN KEY ("firm_id", "unit_id") REFERENCES "unit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_registration" ADD CONSTRAINT "warranty_registration_firm_id_created_by_id_fkey" FOREIGN KEY ("firm_id", "created_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_reading" ADD CONSTRAINT "warranty_reading_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_reading" ADD CONSTRAINT "warranty_reading_firm_id_unit_id_fkey" FOREIGN KEY ("firm_id", "unit_id") REFERENCES "unit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_reading" ADD CONSTRAINT "warranty_reading_firm_id_created_by_id_fkey" FOREIGN KEY ("firm_id", "created_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_claim" ADD CONSTRAINT "warranty_claim_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_claim" ADD CONSTRAINT "warranty_claim_firm_id_unit_id_fkey" FOREIGN KEY ("firm_id", "unit_id") REFERENCES "unit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_claim" ADD CONSTRAINT "warranty_claim_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_claim" ADD CONSTRAINT "warranty_claim_firm_id_created_by_id_fkey" FOREIGN KEY ("firm_id", "created_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_terms" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "warranty_terms" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "warranty_terms" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT ON "warranty_terms" TO holdpoint_app;
ALTER TABLE "warranty_registration" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "warranty_registration" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "warranty_registration" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT, UPDATE ON "warranty_registration" TO holdpoint_app;
ALTER TABLE "warranty_reading" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "warranty_reading" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "warranty_reading" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT ON "warranty_reading" TO holdpoint_app;
ALTER TABLE "warranty_claim" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "warranty_claim" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "warranty_claim" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT, UPDATE ON "warranty_claim" TO holdpoint_app;
