-- Tables brought in from files: the file's reading, what its rows would change, and what became of them.
CREATE TABLE "csv_import" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "file_name" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'waiting',
    "bytes" BIGINT,
    "sha256" TEXT,
    "encoding" TEXT,
    "delimiter" TEXT,
    "headers" JSONB NOT NULL DEFAULT '[]',
    "samples" JSONB NOT NULL DEFAULT '[]',
    "columns" JSONB NOT NULL DEFAULT '[]',
    "constants" JSONB NOT NULL DEFAULT '{}',
    "bad_rows" TEXT,
    "figures" JSONB NOT NULL DEFAULT '{}',
    "progress_done" BIGINT NOT NULL DEFAULT 0,
    "progress_total" BIGINT NOT NULL DEFAULT 0,
    "problem" TEXT,
    "worker_id" UUID,
    "lease_until" TIMESTAMPTZ(3),
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "person_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "checked_at" TIMESTAMPTZ(3),
    "finished_at" TIMESTAMPTZ(3),
    "purged_at" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "csv_import_pkey" PRIMARY KEY ("firm_id","id"),
    CHECK ("kind" IN ('customers', 'sites', 'units', 'instruments', 'firmware-levels')),
    CHECK ("state" IN ('waiting', 'uploaded', 'checking', 'checked', 'importing', 'imported', 'failed',
      'cancelled')),
    CHECK ("bad_rows" IN ('refuse', 'leave'))
);

-- A row of the file, known by the line on which its record begins. Only bad ones outlive the import.
CREATE TABLE "csv_import_row" (
    "firm_id" UUID NOT NULL,
    "import_id" UUID NOT NULL,
    "line" INTEGER NOT NULL,
    "fields" JSONB,
    "natural_key" TEXT,
    "cells" JSONB,
    "outcome" TEXT,
    "reason" TEXT,
    "subject_id" UUID,
    "owner_id" UUID,
    "turn" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "csv_import_row_pkey" PRIMARY KEY ("firm_id","import_id","line"),
    CHECK ("outcome" IN ('new', 'changed', 'unchanged', 'bad')),
    CHECK ("outcome" IS DISTINCT FROM 'bad' OR "reason" IS NOT NULL)
);

-- Which field a column of that name meant the last time.
CREATE TABLE "csv_import_column" (
    "firm_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "header" TEXT NOT NULL,
    "field" TEXT NOT NULL,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "csv_import_column_pkey" PRIMARY KEY ("firm_id","kind","header")
);

-- Who took which list away, and when. Written before the first line leaves.
CREATE TABLE "csv_export" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "list" TEXT NOT NULL,
    "filter" JSONB NOT NULL,
    "person_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "rows" INTEGER,

    CONSTRAINT "csv_export_pkey" PRIMARY KEY ("firm_id","id")
);

ALTER TABLE "csv_import" ADD CONSTRAINT "csv_import_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "csv_import" ADD CONSTRAINT "csv_import_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "csv_import_row" ADD CONSTRAINT "csv_import_row_firm_id_import_id_fkey" FOREIGN KEY ("firm_id", "import_id") REFERENCES "csv_import"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "csv_import_column" ADD CONSTRAINT "csv_import_column_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "csv_export" ADD CONSTRAINT "csv_export_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "csv_export" ADD CONSTRAINT "csv_export_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['csv_import', 'csv_import_row', 'csv_import_column', 'csv_export'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
  END LOOP;
END $$;

-- What was taken away stays on record; only the count of rows is added when the last has left.
CREATE FUNCTION csv_export_is_kept() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'UPDATE' AND OLD.rows IS NULL AND to_jsonb(NEW) - 'rows' = to_jsonb(OLD) - 'rows' THEN
    RETURN NEW;
  END IF;
  RAISE EXCEPTION 'csv_export rows are kept as they were written'
    USING ERRCODE = 'insufficient_privilege', CONSTRAINT = 'csv_export_kept';
END $$;
CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON csv_export FOR EACH ROW EXECUTE FUNCTION csv_export_is_kept();
CREATE TRIGGER kept_whole BEFORE TRUNCATE ON csv_export FOR EACH STATEMENT EXECUTE FUNCTION is_kept();

GRANT SELECT, INSERT, UPDATE ON csv_import, csv_import_column TO holdpoint_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON csv_import_row TO holdpoint_app;
GRANT SELECT, INSERT ON csv_export TO holdpoint_app;
GRANT UPDATE (rows) ON csv_export TO holdpoint_app;
