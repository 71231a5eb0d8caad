-- When an export's bag was stamped by a time-stamp service, or why it was not.
ALTER TABLE "evidence_export" ADD COLUMN "stamped_at" TIMESTAMPTZ(3);
ALTER TABLE "evidence_export" ADD COLUMN "stamp_problem" TEXT;
