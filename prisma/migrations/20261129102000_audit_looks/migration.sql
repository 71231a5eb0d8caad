-- What auditors looked at that belongs to no job: lists, tables taken away, sites, units, files. Once a
-- day for a person and an address; looks at what belongs to a job are on its ledger.
CREATE TABLE "audit_look" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "day" DATE NOT NULL,
    "path" TEXT NOT NULL,
    "operation" TEXT NOT NULL,
    "subject_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "audit_look_pkey" PRIMARY KEY ("firm_id","id"),
    CHECK (octet_length("path") <= 2000)
);
CREATE UNIQUE INDEX "audit_look_firm_id_person_id_day_path_key" ON "audit_look"("firm_id", "person_id", "day", "path");
CREATE INDEX "audit_look_firm_id_day_id_idx" ON "audit_look"("firm_id", "day", "id");
ALTER TABLE "audit_look" ADD CONSTRAINT "audit_look_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_look" ADD CONSTRAINT "audit_look_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "audit_look" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "audit_look" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "audit_look" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON audit_look
  FOR EACH ROW EXECUTE FUNCTION is_kept();
CREATE TRIGGER kept_whole BEFORE TRUNCATE ON audit_look
  FOR EACH STATEMENT EXECUTE FUNCTION is_kept();
GRANT SELECT, INSERT ON "audit_look" TO holdpoint_app;
SELECT keep_in_audit_scope('audit_look', 'person_id = (SELECT audited_person((SELECT audit_scope())))');
