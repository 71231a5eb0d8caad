-- What goes with a claim, and the unit that came in answer to it.
ALTER TABLE "warranty_claim" ADD COLUMN "replacement_unit_id" UUID;
CREATE INDEX "warranty_claim_firm_id_replacement_unit_id_idx" ON "warranty_claim"("firm_id", "replacement_unit_id");
ALTER TABLE "warranty_claim" ADD CONSTRAINT "warranty_claim_firm_id_replacement_unit_id_fkey" FOREIGN KEY ("firm_id", "replacement_unit_id") REFERENCES "unit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
CREATE TABLE "warranty_claim_evidence" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "export_id" UUID,
    "document_id" UUID,
    "added_by_id" UUID NOT NULL,
    "added_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "warranty_claim_evidence_pkey" PRIMARY KEY ("firm_id","id"),
    CONSTRAINT "warranty_claim_evidence_one" CHECK (num_nonnulls("export_id", "document_id") = 1)
);
CREATE UNIQUE INDEX "warranty_claim_evidence_firm_id_claim_id_export_id_key" ON "warranty_claim_evidence"("firm_id", "claim_id", "export_id");
CREATE UNIQUE INDEX "warranty_claim_evidence_firm_id_claim_id_document_id_key" ON "warranty_claim_evidence"("firm_id", "claim_id", "document_id");
ALTER TABLE "warranty_claim_evidence" ADD CONSTRAINT "warranty_claim_evidence_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_claim_evidence" ADD CONSTRAINT "warranty_claim_evidence_firm_id_claim_id_fkey" FOREIGN KEY ("firm_id", "claim_id") REFERENCES "warranty_claim"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_claim_evidence" ADD CONSTRAINT "warranty_claim_evidence_firm_id_export_id_fkey" FOREIGN KEY ("firm_id", "export_id") REFERENCES "evidence_export"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_claim_evidence" ADD CONSTRAINT "warranty_claim_evidence_firm_id_document_id_fkey" FOREIGN KEY ("firm_id", "document_id") REFERENCES "job_document"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_claim_evidence" ADD CONSTRAINT "warranty_claim_evidence_firm_id_added_by_id_fkey" FOREIGN KEY ("firm_id", "added_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "warranty_claim_evidence" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "warranty_claim_evidence" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "warranty_claim_evidence" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT, DELETE ON "warranty_claim_evidence" TO holdpoint_app;
