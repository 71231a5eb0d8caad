-- When a site may be visited, where its customer has named hours; nothing of it is at any time.
CREATE TABLE "visit_hours" (
    "firm_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "hours" JSONB NOT NULL CHECK (jsonb_typeof("hours") = 'array'),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "visit_hours_pkey" PRIMARY KEY ("firm_id","site_id")
);
ALTER TABLE "visit_hours" ADD CONSTRAINT "visit_hours_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "visit_hours" ADD CONSTRAINT "visit_hours_firm_id_site_id_fkey" FOREIGN KEY ("firm_id", "site_id") REFERENCES "site"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "visit_hours" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "visit_hours" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "visit_hours" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT, UPDATE ON "visit_hours" TO holdpoint_app;
