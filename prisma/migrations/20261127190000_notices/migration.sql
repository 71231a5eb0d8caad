-- A notice is also read on a page, and says what it said; a person may ask for the urgent part only.
ALTER TABLE "notice" ADD COLUMN "subject" TEXT NOT NULL DEFAULT '';
ALTER TABLE "notice" ADD COLUMN "body" TEXT NOT NULL DEFAULT '';
ALTER TABLE "notice" ADD COLUMN "seen_at" TIMESTAMPTZ(3);
CREATE INDEX "notice_firm_id_person_id_id_idx" ON "notice"("firm_id", "person_id", "id");
GRANT UPDATE ("seen_at") ON "notice" TO holdpoint_app;

ALTER TABLE "person" ADD COLUMN "firmware_notices" TEXT NOT NULL DEFAULT 'all'
  CHECK ("firmware_notices" IN ('all', 'safety'));
