-- Hours may change from a day to come. No hours of its own is the firm's week, or the usual one.
ALTER TABLE "work_week" ALTER COLUMN "days" DROP NOT NULL;
ALTER TABLE "work_week" ADD COLUMN "next_days" JSONB CHECK (jsonb_typeof("next_days") = 'array');
ALTER TABLE "work_week" ADD COLUMN "next_from" DATE;
ALTER TABLE "work_week" ADD CONSTRAINT "work_week_next_has_its_day"
  CHECK ("next_days" IS NULL OR "next_from" IS NOT NULL);
