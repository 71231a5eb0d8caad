-- What a draft said before its last change, so that a slip can be taken back; nothing of it is published.
ALTER TABLE "plan_version" ADD COLUMN "previous_document" JSONB;
ALTER TABLE "plan_version" ADD CONSTRAINT "plan_version_previous_of_draft"
  CHECK ("state" = 'draft' OR "previous_document" IS NULL);
