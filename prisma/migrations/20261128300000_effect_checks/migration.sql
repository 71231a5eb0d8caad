-- Whether a correction works is looked at by a day and by somebody; each look is kept with what it was
-- that did or did not.
ALTER TABLE "nonconformance" ADD COLUMN "effect_due_on" DATE, ADD COLUMN "effect_by_id" UUID;
ALTER TABLE "nonconformance" ADD CONSTRAINT "nonconformance_firm_id_effect_by_id_fkey" FOREIGN KEY ("firm_id", "effect_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
CREATE TABLE "effect_check" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "nonconformance_id" UUID NOT NULL,
    "verdict" TEXT NOT NULL CHECK ("verdict" IN ('effective', 'not-effective')),
    "note" TEXT NOT NULL,
    "cause" TEXT NOT NULL,
    "correction" TEXT NOT NULL,
    "checked_by_id" UUID NOT NULL,
    "checked_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "effect_check_pkey" PRIMARY KEY ("firm_id","id")
);
CREATE INDEX "effect_check_firm_id_nonconformance_id_idx" ON "effect_check"("firm_id", "nonconformance_id");
ALTER TABLE "effect_check" ADD CONSTRAINT "effect_check_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "effect_check" ADD CONSTRAINT "effect_check_firm_id_nonconformance_id_fkey" FOREIGN KEY ("firm_id", "nonconformance_id") REFERENCES "nonconformance"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "effect_check" ADD CONSTRAINT "effect_check_firm_id_checked_by_id_fkey" FOREIGN KEY ("firm_id", "checked_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "effect_check" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "effect_check" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "effect_check" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT ON "effect_check" TO holdpoint_app;
