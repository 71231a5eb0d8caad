-- A site's survey: every save is a row of its own, the last one counts, the earlier ones stay.
CREATE TABLE "survey" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "document" JSONB NOT NULL,
    "sha256" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "survey_pkey" PRIMARY KEY ("firm_id","id")
);

-- A firm's own rules for where batteries may stand, beside those that come with the product.
CREATE TABLE "rule_pack" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "region" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "rule_pack_pkey" PRIMARY KEY ("firm_id","id")
);

CREATE TABLE "rule_pack_version" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "rule_pack_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "document" JSONB NOT NULL,
    "sha256" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "rule_pack_version_pkey" PRIMARY KEY ("firm_id","id")
);

CREATE UNIQUE INDEX "survey_firm_id_site_id_number_key" ON "survey"("firm_id", "site_id", "number");
CREATE UNIQUE INDEX "rule_pack_firm_id_code_key" ON "rule_pack"("firm_id", "code");
CREATE UNIQUE INDEX "rule_pack_version_firm_id_rule_pack_id_number_key" ON "rule_pack_version"("firm_id", "rule_pack_id", "number");

ALTER TABLE "survey" ADD CONSTRAINT "survey_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "survey" ADD CONSTRAINT "survey_firm_id_site_id_fkey" FOREIGN KEY ("firm_id", "site_id") REFERENCES "site"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "survey" ADD CONSTRAINT "survey_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "rule_pack" ADD CONSTRAINT "rule_pack_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "rule_pack_version" ADD CONSTRAINT "rule_pack_version_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "rule_pack_version" ADD CONSTRAINT "rule_pack_version_firm_id_rule_pack_id_fkey" FOREIGN KEY ("firm_id", "rule_pack_id") REFERENCES "rule_pack"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "rule_pack_version" ADD CONSTRAINT "rule_pack_version_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['survey', 'rule_pack', 'rule_pack_version'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
  END LOOP;
  -- A judgement rests on the survey and the rules as they stood.
  FOREACH t IN ARRAY ARRAY['survey', 'rule_pack_version'] LOOP
    EXECUTE format('CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON %I
                    FOR EACH ROW EXECUTE FUNCTION is_kept()', t);
    EXECUTE format('CREATE TRIGGER kept_whole BEFORE TRUNCATE ON %I
                    FOR EACH STATEMENT EXECUTE FUNCTION is_kept()', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT, UPDATE ON rule_pack TO holdpoint_app;
GRANT SELECT, INSERT ON survey, rule_pack_version TO holdpoint_app;
