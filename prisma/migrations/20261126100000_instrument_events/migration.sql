-- Type and class of a torque tool (ISO 6789-1), where the firm knows them.
ALTER TABLE "instrument" ADD COLUMN "torque_tool" JSONB;

-- What happened to an instrument between calibrations. at_text is at as written at the place.
CREATE TABLE "instrument_event" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "at_text" TEXT NOT NULL,
    "cycles" INTEGER,
    "note" TEXT,
    "person_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "instrument_event_pkey" PRIMARY KEY ("firm_id","id")
);

-- Each use of a torque tool in the order in which it became known. job_id and receipt_order name
-- the answer that it came with, event_id the event.
CREATE TABLE "instrument_use" (
    "firm_id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "day" DATE NOT NULL,
    "cycles" INTEGER NOT NULL,
    "job_id" UUID,
    "receipt_order" INTEGER,
    "event_id" UUID,

    CONSTRAINT "instrument_use_pkey" PRIMARY KEY ("firm_id","instrument_id","number")
);

-- A job in which readings are repeated because their instrument is in doubt.
CREATE TABLE "retest_job" (
    "firm_id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "origin_job_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "retest_job_pkey" PRIMARY KEY ("firm_id","job_id")
);

CREATE INDEX "instrument_event_firm_id_instrument_id_at_idx" ON "instrument_event"("firm_id", "instrument_id", "at");
CREATE INDEX "instrument_use_firm_id_instrument_id_day_idx" ON "instrument_use"("firm_id", "instrument_id", "day");
CREATE INDEX "retest_job_firm_id_instrument_id_idx" ON "retest_job"("firm_id", "instrument_id");

ALTER TABLE "instrument_event" ADD CONSTRAINT "instrument_event_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_event" ADD CONSTRAINT "instrument_event_firm_id_instrument_id_fkey" FOREIGN KEY ("firm_id", "instrument_id") REFERENCES "instrument"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_event" ADD CONSTRAINT "instrument_event_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_use" ADD CONSTRAINT "instrument_use_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_use" ADD CONSTRAINT "instrument_use_firm_id_instrument_id_fkey" FOREIGN KEY ("firm_id", "instrument_id") REFERENCES "instrument"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_use" ADD CONSTRAINT "instrument_use_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_use" ADD CONSTRAINT "instrument_use_firm_id_event_id_fkey" FOREIGN KEY ("firm_id", "event_id") REFERENCES "instrument_event"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "retest_job" ADD CONSTRAINT "retest_job_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "retest_job" ADD CONSTRAINT "retest_job_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "retest_job" ADD CONSTRAINT "retest_job_firm_id_instrument_id_fkey" FOREIGN KEY ("firm_id", "instrument_id") REFERENCES "instrument"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "retest_job" ADD CONSTRAINT "retest_job_firm_id_site_id_fkey" FOREIGN KEY ("firm_id", "site_id") REFERENCES "site"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "retest_job" ADD CONSTRAINT "retest_job_firm_id_origin_job_id_fkey" FOREIGN KEY ("firm_id", "origin_job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE instrument_event
  ADD CHECK (kind IN ('overload', 'dropped', 'recheck-passed', 'recheck-failed', 'used', 'note')),
  ADD CHECK ((kind = 'used') = (cycles IS NOT NULL)),
  ADD CHECK (cycles BETWEEN 1 AND 100000);
ALTER TABLE instrument_use
  ADD CHECK (number > 0), ADD CHECK (cycles >= 0),
  ADD CHECK ((job_id IS NULL) = (receipt_order IS NULL)),
  ADD CHECK (num_nonnulls(job_id, event_id) = 1);

-- Uses are counted where they are stored, so that no path forgets one. The instrument is locked
-- while a use gets its number: whoever judged a reading under the same lock saw all lower numbers.
CREATE FUNCTION add_instrument_use(p_firm uuid, p_instrument uuid, p_day date, p_cycles integer,
    p_job uuid, p_receipt_order integer, p_event uuid) RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  PERFORM 1 FROM instrument WHERE firm_id = p_firm AND id = p_instrument
    AND instrument_class IN ('torque-wrench', 'torque-screwdriver') FOR NO KEY UPDATE;
  IF NOT FOUND THEN RETURN; END IF;
  INSERT INTO instrument_use (firm_id, instrument_id, number, day, cycles, job_id, receipt_order,
      event_id)
    SELECT p_firm, p_instrument, coalesce(max(number), 0) + 1, p_day, p_cycles, p_job,
      p_receipt_order, p_event
    FROM instrument_use WHERE firm_id = p_firm AND instrument_id = p_instrument;
END $$;

-- Every fastener of a tightening is one cycle; another reading with the tool is none.
CREATE FUNCTION cycles_of_answer(p_value jsonb) RETURNS integer LANGUAGE sql IMMUTABLE AS $$
  SELECT CASE WHEN jsonb_typeof(p_value -> 'points') = 'array'
    THEN jsonb_array_length(p_value -> 'points') ELSE 0 END
$$;

CREATE FUNCTION answer_uses_instrument() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM add_instrument_use(NEW.firm_id, NEW.instrument_id, left(NEW.taken_at_text, 10)::date,
    cycles_of_answer(NEW.value), NEW.job_id, NEW.receipt_order, NULL);
  RETURN NULL;
END $$;
CREATE TRIGGER answer_uses_instrument AFTER INSERT ON answer
  FOR EACH ROW WHEN (NEW.instrument_id IS NOT NULL) EXECUTE FUNCTION answer_uses_instrument();

CREATE FUNCTION event_uses_instrument() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM add_instrument_use(NEW.firm_id, NEW.instrument_id, left(NEW.at_text, 10)::date,
    NEW.cycles, NULL, NULL, NEW.id);
  RETURN NULL;
END $$;
CREATE TRIGGER event_uses_instrument AFTER INSERT ON instrument_event
  FOR EACH ROW WHEN (NEW.kind = 'used') EXECUTE FUNCTION event_uses_instrument();

-- Uses of a tool by day as [{day, cycles, fromOrder}] for judging the answers of one job (none when
-- the tool is looked at by itself). fromOrder is the receipt order of the job's first answer that
-- was judged knowing the use: its own uses are known to what comes after them, those of others to
-- the job's next use of the tool. Uses of long ago are left out: those before the calibration that
-- was in force at the job's first use, or before the last calibration but one.
CREATE FUNCTION instrument_uses(p_firm uuid, p_instrument uuid, p_job uuid) RETURNS json
LANGUAGE sql STABLE AS $$
  WITH own AS (
    SELECT min(day) AS first_day, max(receipt_order) AS last_order FROM instrument_use
    WHERE firm_id = p_firm AND instrument_id = p_instrument AND job_id = p_job
  ), passed AS (
    SELECT calibrated_on FROM calibration
    WHERE firm_id = p_firm AND instrument_id = p_instrument AND passed
  ), start AS (
    SELECT coalesce(max(calibrated_on), '-infinity') AS day FROM passed
    WHERE calibrated_on <= least((SELECT first_day FROM own),
      (SELECT DISTINCT calibrated_on FROM passed ORDER BY calibrated_on DESC OFFSET 1 LIMIT 1))
  ), known AS (
    SELECT u.day, u.cycles,
      CASE WHEN u.job_id = p_job THEN u.receipt_order + 1
        ELSE coalesce(min(CASE WHEN u.job_id = p_job THEN u.receipt_order END) OVER later,
          (SELECT last_order FROM own) + 1, 0) END AS from_order
    FROM instrument_use u
    WHERE u.firm_id = p_firm AND u.instrument_id = p_instrument
      AND u.day >= (SELECT day FROM start)
    WINDOW later AS (ORDER BY u.number ROWS BETWEEN 1 FOLLOWING AND UNBOUNDED FOLLOWING)
  ), days AS (
    SELECT day, from_order, sum(cycles) AS cycles FROM known
    WHERE cycles > 0 GROUP BY day, from_order
  )
  SELECT coalesce(json_agg(json_build_object('day', day, 'cycles', cycles, 'fromOrder', from_order)
    ORDER BY day, from_order), '[]') FROM days
$$;

-- The answers that are there already. Row-level security holds for the owner too, who has no firm.
ALTER TABLE answer NO FORCE ROW LEVEL SECURITY;
ALTER TABLE instrument NO FORCE ROW LEVEL SECURITY;
INSERT INTO instrument_use (firm_id, instrument_id, number, day, cycles, job_id, receipt_order)
  SELECT a.firm_id, a.instrument_id,
    row_number() OVER (PARTITION BY a.firm_id, a.instrument_id
      ORDER BY a.received_at, a.job_id, a.receipt_order),
    left(a.taken_at_text, 10)::date, cycles_of_answer(a.value), a.job_id, a.receipt_order
  FROM answer a JOIN instrument i ON i.firm_id = a.firm_id AND i.id = a.instrument_id
  WHERE i.instrument_class IN ('torque-wrench', 'torque-screwdriver');
ALTER TABLE answer FORCE ROW LEVEL SECURITY;
ALTER TABLE instrument FORCE ROW LEVEL SECURITY;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['instrument_event', 'instrument_use', 'retest_job'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
    EXECUTE format('CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON %I
                    FOR EACH ROW EXECUTE FUNCTION is_kept()', t);
    EXECUTE format('CREATE TRIGGER kept_whole BEFORE TRUNCATE ON %I
                    FOR EACH STATEMENT EXECUTE FUNCTION is_kept()', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT ON instrument_event, instrument_use, retest_job TO holdpoint_app;
