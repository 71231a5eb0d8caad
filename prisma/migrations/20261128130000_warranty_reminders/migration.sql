-- What office and managers were reminded of, each day of a unit once; and a reading entered by a
-- slip can be taken back.
CREATE TABLE "warranty_reminder" (
    "firm_id" UUID NOT NULL,
    "unit_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "due_on" DATE NOT NULL,
    "told_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "warranty_reminder_pkey" PRIMARY KEY ("firm_id","unit_id","kind","due_on")
);
ALTER TABLE "warranty_reminder" ADD CONSTRAINT "warranty_reminder_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_reminder" ADD CONSTRAINT "warranty_reminder_firm_id_unit_id_fkey" FOREIGN KEY ("firm_id", "unit_id") REFERENCES "unit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_reminder" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "warranty_reminder" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "warranty_reminder" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT ON "warranty_reminder" TO holdpoint_app;
GRANT DELETE ON "warranty_reading" TO holdpoint_app;
