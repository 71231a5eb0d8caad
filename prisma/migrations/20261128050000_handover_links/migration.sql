-- A customer reads the papers of a job by a link that runs out; only a hash of its secret is kept.
CREATE TABLE "handover_link" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "secret_hash" TEXT NOT NULL,
    "language" TEXT NOT NULL,
    "mail_id" UUID,
    "created_by_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "revoked_at" TIMESTAMPTZ(3),
    "opened" INTEGER NOT NULL DEFAULT 0,
    "opened_at" TIMESTAMPTZ(3),

    CONSTRAINT "handover_link_pkey" PRIMARY KEY ("firm_id","id")
);
CREATE INDEX "handover_link_firm_id_job_id_idx" ON "handover_link"("firm_id", "job_id");
ALTER TABLE "handover_link" ADD CONSTRAINT "handover_link_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "handover_link" ADD CONSTRAINT "handover_link_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "handover_link" ADD CONSTRAINT "handover_link_firm_id_mail_id_fkey" FOREIGN KEY ("firm_id", "mail_id") REFERENCES "mail"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "handover_link" ADD CONSTRAINT "handover_link_firm_id_created_by_id_fkey" FOREIGN KEY ("firm_id", "created_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "handover_link" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "handover_link" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "handover_link" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT, UPDATE ON "handover_link" TO holdpoint_app;
