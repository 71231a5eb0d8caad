-- A proposal of day rounds for due sites, and the visits that came of it once it was accepted.
CREATE TABLE "update_round" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "reference" TEXT NOT NULL,
    "state" TEXT NOT NULL CHECK ("state" IN ('proposed', 'accepted', 'dropped')),
    "request" JSONB NOT NULL,
    "proposal" JSONB NOT NULL,
    "replaces_id" UUID,
    "created_by_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "decided_at" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "update_round_pkey" PRIMARY KEY ("firm_id","id")
);

CREATE TABLE "update_round_visit" (
    "firm_id" UUID NOT NULL,
    "round_id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,

    CONSTRAINT "update_round_visit_pkey" PRIMARY KEY ("firm_id","round_id","visit_id")
);

-- Where a firm's crews start from and come home to.
ALTER TABLE "firm" ADD COLUMN "base_latitude" DOUBLE PRECISION CHECK ("base_latitude" BETWEEN -90 AND 90);
ALTER TABLE "firm" ADD COLUMN "base_longitude" DOUBLE PRECISION CHECK ("base_longitude" BETWEEN -180 AND 180);
ALTER TABLE "firm" ADD CONSTRAINT "firm_base_whole"
  CHECK (("base_latitude" IS NULL) = ("base_longitude" IS NULL));

CREATE UNIQUE INDEX "update_round_firm_id_reference_key" ON "update_round"("firm_id", "reference");
CREATE UNIQUE INDEX "update_round_visit_firm_id_visit_id_key" ON "update_round_visit"("firm_id", "visit_id");

ALTER TABLE "update_round" ADD CONSTRAINT "update_round_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "update_round" ADD CONSTRAINT "update_round_firm_id_created_by_id_fkey" FOREIGN KEY ("firm_id", "created_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "update_round" ADD CONSTRAINT "update_round_firm_id_replaces_id_fkey" FOREIGN KEY ("firm_id", "replaces_id") REFERENCES "update_round"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "update_round_visit" ADD CONSTRAINT "update_round_visit_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "update_round_visit" ADD CONSTRAINT "update_round_visit_firm_id_round_id_fkey" FOREIGN KEY ("firm_id", "round_id") REFERENCES "update_round"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "update_round_visit" ADD CONSTRAINT "update_round_visit_firm_id_visit_id_fkey" FOREIGN KEY ("firm_id", "visit_id") REFERENCES "visit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['update_round', 'update_round_visit'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT, UPDATE ON update_round TO holdpoint_app;
GRANT SELECT, INSERT ON update_round_visit TO holdpoint_app;
