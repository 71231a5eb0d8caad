-- What a release may be installed over, what it needs beside it, and its file.
ALTER TABLE "firmware_release" ADD COLUMN "hardware_revisions" TEXT[] NOT NULL DEFAULT '{}';
ALTER TABLE "firmware_release" ADD COLUMN "from_min" TEXT;
ALTER TABLE "firmware_release" ADD COLUMN "from_below" TEXT;
ALTER TABLE "firmware_release" ADD COLUMN "companions" JSONB NOT NULL DEFAULT '[]';
ALTER TABLE "firmware_release" ADD COLUMN "deadline_days" INTEGER CHECK ("deadline_days" BETWEEN 0 AND 3650);
ALTER TABLE "firmware_release" ADD COLUMN "file_name" TEXT;
ALTER TABLE "firmware_release" ADD COLUMN "file_bytes" BIGINT CHECK ("file_bytes" > 0);
ALTER TABLE "firmware_release" ADD COLUMN "withdrawn_reason" TEXT;

-- A release is tried on a few sites, then on more: rings in their order, and when to stop.
CREATE TABLE "firmware_ring" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "position" INTEGER NOT NULL CHECK ("position" BETWEEN 1 AND 20),
    "updated_least" INTEGER NOT NULL DEFAULT 5 CHECK ("updated_least" BETWEEN 1 AND 100000),
    "soak_days" INTEGER NOT NULL DEFAULT 7 CHECK ("soak_days" BETWEEN 0 AND 365),
    "failure_most" DOUBLE PRECISION NOT NULL DEFAULT 0.02 CHECK ("failure_most" BETWEEN 0 AND 1),
    "opens_itself" BOOLEAN NOT NULL DEFAULT false,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "firmware_ring_pkey" PRIMARY KEY ("firm_id","id")
);
CREATE UNIQUE INDEX "firmware_ring_firm_id_name_key" ON "firmware_ring"("firm_id", "name");
CREATE UNIQUE INDEX "firmware_ring_firm_id_position_key" ON "firmware_ring"("firm_id", "position");
ALTER TABLE "firmware_ring" ADD CONSTRAINT "firmware_ring_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "site" ADD COLUMN "ring_id" UUID;
ALTER TABLE "site" ADD CONSTRAINT "site_firm_id_ring_id_fkey" FOREIGN KEY ("firm_id", "ring_id") REFERENCES "firmware_ring"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- A target of a model counts everywhere, or in one ring, one region, or one region of one ring.
ALTER TABLE "firmware_target" ADD COLUMN "ring_id" UUID;
ALTER TABLE "firmware_target" ADD COLUMN "region" TEXT;
ALTER TABLE "firmware_target" ADD COLUMN "state" TEXT NOT NULL DEFAULT 'open'
  CHECK ("state" IN ('waiting', 'open', 'held', 'passed'));
ALTER TABLE "firmware_target" ADD COLUMN "held_reason" TEXT;
ALTER TABLE "firmware_target" ADD COLUMN "opened_at" TIMESTAMPTZ(3);
ALTER TABLE "firmware_target" ADD CONSTRAINT "firmware_target_firm_id_ring_id_fkey" FOREIGN KEY ("firm_id", "ring_id") REFERENCES "firmware_ring"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
DROP INDEX "firmware_target_firm_id_model_id_key";
CREATE UNIQUE INDEX "firmware_target_scope_key" ON "firmware_target"("firm_id", "model_id", "ring_id", "region") NULLS NOT DISTINCT;
CREATE INDEX "firmware_target_firm_id_model_id_idx" ON "firmware_target"("firm_id", "model_id");

-- What did not conform and is followed up (ISO 9000: nonconformance): cause, containment, effect.
CREATE TABLE "nonconformance" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "reference" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'open' CHECK ("state" IN ('open', 'contained', 'closed')),
    "site_id" UUID,
    "unit_id" UUID,
    "job_id" UUID,
    "release_id" UUID,
    "cause" TEXT,
    "containment" TEXT,
    "correction" TEXT,
    "due_on" DATE,
    "owner_id" UUID,
    "effect_check" TEXT,
    "opened_by_id" UUID,
    "opened_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "closed_at" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "nonconformance_pkey" PRIMARY KEY ("firm_id","id"),
    CONSTRAINT "nonconformance_closed_with_effect" CHECK ("state" <> 'closed'
      OR ("cause" IS NOT NULL AND "effect_check" IS NOT NULL AND "closed_at" IS NOT NULL))
);
CREATE UNIQUE INDEX "nonconformance_firm_id_reference_key" ON "nonconformance"("firm_id", "reference");
CREATE INDEX "nonconformance_firm_id_release_id_idx" ON "nonconformance"("firm_id", "release_id");
CREATE UNIQUE INDEX "nonconformance_update_once" ON "nonconformance"("firm_id", "job_id", "unit_id", "release_id")
  WHERE "kind" = 'firmware-update';
ALTER TABLE "nonconformance" ADD CONSTRAINT "nonconformance_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "nonconformance" ADD CONSTRAINT "nonconformance_firm_id_site_id_fkey" FOREIGN KEY ("firm_id", "site_id") REFERENCES "site"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "nonconformance" ADD CONSTRAINT "nonconformance_firm_id_unit_id_fkey" FOREIGN KEY ("firm_id", "unit_id") REFERENCES "unit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "nonconformance" ADD CONSTRAINT "nonconformance_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "nonconformance" ADD CONSTRAINT "nonconformance_firm_id_release_id_fkey" FOREIGN KEY ("firm_id", "release_id") REFERENCES "firmware_release"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "nonconformance" ADD CONSTRAINT "nonconformance_firm_id_owner_id_fkey" FOREIGN KEY ("firm_id", "owner_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "nonconformance" ADD CONSTRAINT "nonconformance_firm_id_opened_by_id_fkey" FOREIGN KEY ("firm_id", "opened_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['firmware_ring', 'nonconformance'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT, UPDATE ON firmware_ring, nonconformance TO holdpoint_app;
GRANT DELETE ON firmware_target TO holdpoint_app;
