-- What stands on a firm's documents: how it is reached, its mark, its colour, its registrations.
CREATE TABLE "branding" (
    "firm_id" UUID NOT NULL,
    "address" TEXT NOT NULL DEFAULT '',
    "phone" TEXT NOT NULL DEFAULT '',
    "email" TEXT NOT NULL DEFAULT '',
    "website" TEXT NOT NULL DEFAULT '',
    "registrations" TEXT NOT NULL DEFAULT '',
    "colour" TEXT NOT NULL DEFAULT '#14524d' CHECK ("colour" ~ '^#[0-9a-f]{6}$'),
    "mark" BYTEA CHECK (octet_length("mark") <= 524288),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "branding_pkey" PRIMARY KEY ("firm_id")
);
ALTER TABLE "branding" ADD CONSTRAINT "branding_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "branding" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "branding" FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON "branding" USING (firm_id = (SELECT current_firm()))
  WITH CHECK (firm_id = (SELECT current_firm()));
GRANT SELECT, INSERT, UPDATE ON "branding" TO holdpoint_app;
