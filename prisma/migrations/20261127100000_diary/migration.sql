-- Who may do what work until when, who is away, when people work, and inspections that come round.
CREATE TABLE "qualification_kind" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "warn_days" INTEGER NOT NULL DEFAULT 60 CHECK ("warn_days" BETWEEN 0 AND 366),
    "archived_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "qualification_kind_pkey" PRIMARY KEY ("firm_id","id")
);

CREATE TABLE "qualification" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "kind_id" UUID NOT NULL,
    "number" TEXT,
    "issued_by" TEXT,
    "valid_from" DATE NOT NULL,
    "valid_to" DATE,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "qualification_pkey" PRIMARY KEY ("firm_id","id"),
    CONSTRAINT "qualification_days" CHECK ("valid_to" >= "valid_from")
);

-- Work of a kind asks for a qualification, of everyone in the crew or of at least one of them.
CREATE TABLE "qualification_requirement" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "job_kind" TEXT NOT NULL,
    "kind_id" UUID NOT NULL,
    "asked_of" TEXT NOT NULL CHECK ("asked_of" IN ('everyone', 'someone')),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "qualification_requirement_pkey" PRIMARY KEY ("firm_id","id")
);

CREATE TABLE "absence" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "reason" TEXT NOT NULL CHECK ("reason" IN ('leave', 'sickness', 'training', 'other')),
    "note" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "absence_pkey" PRIMARY KEY ("firm_id","id"),
    CONSTRAINT "absence_hours" CHECK ("starts_at" < "ends_at")
);

-- The firm's week where person_id is null, else the week of one who works other hours.
CREATE TABLE "work_week" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "person_id" UUID,
    "days" JSONB NOT NULL CHECK (jsonb_typeof("days") = 'array'),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "work_week_pkey" PRIMARY KEY ("firm_id","id")
);

CREATE TABLE "recurring_inspection" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "plan_id" UUID NOT NULL,
    "title" TEXT NOT NULL,
    "every_months" INTEGER NOT NULL CHECK ("every_months" BETWEEN 1 AND 240),
    "first_due_on" DATE NOT NULL,
    "first_number" INTEGER NOT NULL DEFAULT 0,
    "next_number" INTEGER NOT NULL DEFAULT 0 CHECK ("next_number" >= "first_number"),
    "next_due_on" DATE NOT NULL,
    "horizon_days" INTEGER NOT NULL DEFAULT 30 CHECK ("horizon_days" BETWEEN 0 AND 366),
    "ended_at" TIMESTAMPTZ(3),
    "held_up_by" TEXT,
    "created_by_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "recurring_inspection_pkey" PRIMARY KEY ("firm_id","id")
);

-- One job a turn, however often and wherever the run is started.
CREATE TABLE "recurring_inspection_job" (
    "firm_id" UUID NOT NULL,
    "recurring_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "due_on" DATE NOT NULL,
    "job_id" UUID NOT NULL,

    CONSTRAINT "recurring_inspection_job_pkey" PRIMARY KEY ("firm_id","recurring_id","number")
);

-- Whose public holidays the firm keeps: a country and, where they differ inside it, a part of it.
ALTER TABLE "firm" ADD COLUMN "holiday_country" TEXT CHECK ("holiday_country" ~ '^[A-Z]{2}$');
ALTER TABLE "firm" ADD COLUMN "holiday_region" TEXT;
ALTER TABLE "firm" ADD CONSTRAINT "firm_holiday_region_of_country"
  CHECK ("holiday_region" IS NULL OR "holiday_country" IS NOT NULL);

CREATE UNIQUE INDEX "qualification_kind_firm_id_name_key" ON "qualification_kind"("firm_id", "name");
CREATE INDEX "qualification_firm_id_person_id_idx" ON "qualification"("firm_id", "person_id");
CREATE INDEX "qualification_firm_id_kind_id_idx" ON "qualification"("firm_id", "kind_id");
CREATE UNIQUE INDEX "qualification_requirement_firm_id_job_kind_kind_id_key" ON "qualification_requirement"("firm_id", "job_kind", "kind_id");
CREATE INDEX "absence_firm_id_starts_at_idx" ON "absence"("firm_id", "starts_at");
CREATE UNIQUE INDEX "work_week_person_key" ON "work_week"("firm_id", "person_id") NULLS NOT DISTINCT;
CREATE INDEX "recurring_inspection_firm_id_site_id_idx" ON "recurring_inspection"("firm_id", "site_id");
CREATE INDEX "recurring_inspection_firm_id_next_due_on_idx" ON "recurring_inspection"("firm_id", "next_due_on");
CREATE UNIQUE INDEX "recurring_inspection_job_firm_id_job_id_key" ON "recurring_inspection_job"("firm_id", "job_id");

ALTER TABLE "qualification_kind" ADD CONSTRAINT "qualification_kind_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "qualification" ADD CONSTRAINT "qualification_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "qualification" ADD CONSTRAINT "qualification_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "qualification" ADD CONSTRAINT "qualification_firm_id_kind_id_fkey" FOREIGN KEY ("firm_id", "kind_id") REFERENCES "qualification_kind"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "qualification_requirement" ADD CONSTRAINT "qualification_requirement_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "qualification_requirement" ADD CONSTRAINT "qualification_requirement_firm_id_kind_id_fkey" FOREIGN KEY ("firm_id", "kind_id") REFERENCES "qualification_kind"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "absence" ADD CONSTRAINT "absence_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "absence" ADD CONSTRAINT "absence_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "work_week" ADD CONSTRAINT "work_week_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "work_week" ADD CONSTRAINT "work_week_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "recurring_inspection" ADD CONSTRAINT "recurring_inspection_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "recurring_inspection" ADD CONSTRAINT "recurring_inspection_firm_id_site_id_fkey" FOREIGN KEY ("firm_id", "site_id") REFERENCES "site"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "recurring_inspection" ADD CONSTRAINT "recurring_inspection_firm_id_plan_id_fkey" FOREIGN KEY ("firm_id", "plan_id") REFERENCES "plan"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "recurring_inspection" ADD CONSTRAINT "recurring_inspection_firm_id_created_by_id_fkey" FOREIGN KEY ("firm_id", "created_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "recurring_inspection_job" ADD CONSTRAINT "recurring_inspection_job_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "recurring_inspection_job" ADD CONSTRAINT "recurring_inspection_job_firm_id_recurring_id_fkey" FOREIGN KEY ("firm_id", "recurring_id") REFERENCES "recurring_inspection"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "recurring_inspection_job" ADD CONSTRAINT "recurring_inspection_job_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['qualification_kind', 'qualification', 'qualification_requirement', 'absence',
                           'work_week', 'recurring_inspection', 'recurring_inspection_job'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT, UPDATE ON qualification_kind, recurring_inspection TO holdpoint_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON qualification, absence, work_week TO holdpoint_app;
GRANT SELECT, INSERT, DELETE ON qualification_requirement TO holdpoint_app;
GRANT SELECT, INSERT ON recurring_inspection_job TO holdpoint_app;

-- Nobody is away twice at once, and nobody is booked while away, whichever was written first. Both
-- sides take the person's row before they look, so that of two at the same moment the second sees
-- what the first wrote.
ALTER TABLE absence ADD CONSTRAINT absence_no_overlap EXCLUDE USING gist (
  firm_id WITH =, person_id WITH =, tstzrange(starts_at, ends_at) WITH &&);

CREATE FUNCTION absence_frees_no_visit() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM 1 FROM person WHERE firm_id = NEW.firm_id AND id = NEW.person_id FOR NO KEY UPDATE;
  IF EXISTS (SELECT FROM visit_booking b WHERE b.firm_id = NEW.firm_id
             AND coalesce(b.crew_id, b.person_id, b.instrument_id) = NEW.person_id
             AND tstzrange(b.starts_at, b.ends_at) && tstzrange(NEW.starts_at, NEW.ends_at)) THEN
    RAISE EXCEPTION 'the person is booked for a visit then'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'absence_over_visit';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER absence_frees_no_visit BEFORE INSERT OR UPDATE ON absence
  FOR EACH ROW EXECUTE FUNCTION absence_frees_no_visit();

CREATE FUNCTION booked_person_is_there() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM 1 FROM person WHERE firm_id = NEW.firm_id AND id = NEW.person_id FOR NO KEY UPDATE;
  IF EXISTS (SELECT FROM absence a WHERE a.firm_id = NEW.firm_id AND a.person_id = NEW.person_id
             AND tstzrange(a.starts_at, a.ends_at) && tstzrange(NEW.starts_at, NEW.ends_at)) THEN
    RAISE EXCEPTION 'the person is away then'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'visit_booking_absent';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER booked_person_is_there BEFORE INSERT OR UPDATE ON visit_booking
  FOR EACH ROW WHEN (NEW.person_id IS NOT NULL) EXECUTE FUNCTION booked_person_is_there();
