-- Where a battery's passport is, and what was read off it.
CREATE TABLE "battery_passport" (
    "firm_id" UUID NOT NULL,
    "unit_id" UUID NOT NULL,
    "uri" TEXT,
    "entries" JSONB NOT NULL,
    "updated_by_id" UUID NOT NULL,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "battery_passport_pkey" PRIMARY KEY ("firm_id","unit_id")
);
ALTER TABLE "battery_passport" ADD CONSTRAINT "battery_passport_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "battery_passport" ADD CONSTRAINT "battery_passport_firm_id_unit_id_fkey" FOREIGN KEY ("firm_id", "unit_id") REFERENCES "unit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "battery_passport" ADD CONSTRAINT "battery_passport_firm_id_updated_by_id_fkey" FOREIGN KEY ("firm_id", "updated_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "battery_passport" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "battery_passport" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "battery_passport" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT, UPDATE ON "battery_passport" TO holdpoint_app;
