-- The second step of signing in: a sealed secret, the last step that was used, codes for a lost device.
ALTER TABLE "person" ADD COLUMN "totp_sealed" BYTEA;
ALTER TABLE "person" ADD COLUMN "totp_confirmed_at" TIMESTAMPTZ(3);
ALTER TABLE "person" ADD COLUMN "totp_last_step" BIGINT;
ALTER TABLE "person" ADD COLUMN "recovery_hashes" TEXT[] NOT NULL DEFAULT '{}';
ALTER TABLE "firm" ADD COLUMN "two_step_roles" TEXT[] NOT NULL DEFAULT '{}';

-- An invitation opens one account once; only a hash of its secret is kept.
CREATE TABLE "invitation" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "secret_hash" TEXT NOT NULL,
    "created_by_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "used_at" TIMESTAMPTZ(3),
    "revoked_at" TIMESTAMPTZ(3),

    CONSTRAINT "invitation_pkey" PRIMARY KEY ("firm_id","id")
);
CREATE INDEX "invitation_firm_id_person_id_idx" ON "invitation"("firm_id", "person_id");
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_firm_id_created_by_id_fkey" FOREIGN KEY ("firm_id", "created_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "invitation" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "invitation" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "invitation" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT, UPDATE ON "invitation" TO holdpoint_app;
