-- Every table, its keys and its row-level security. The application signs in as a member of
-- holdpoint_app, which owns nothing, and sees the rows of one firm at a time: the one named by the
-- transaction-local setting app.firm_id. Roles belong to the whole server, so this one may be there already.

DO $$ BEGIN
  CREATE ROLE holdpoint_app NOLOGIN;
EXCEPTION WHEN duplicate_object OR unique_violation THEN NULL;
END $$;

CREATE EXTENSION IF NOT EXISTS citext;
CREATE EXTENSION IF NOT EXISTS btree_gist;
CREATE EXTENSION IF NOT EXISTS pg_trgm;

-- CreateTable
CREATE TABLE "firm" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "time_zone" TEXT NOT NULL,
    "unit_system" TEXT NOT NULL DEFAULT 'metric',
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "firm_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "person" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "email" CITEXT NOT NULL,
    "name" TEXT NOT NULL,
    "roles" TEXT[],
    "password_hash" TEXT,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "token_epoch" INTEGER NOT NULL DEFAULT 0,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "person_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "session" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "secret_hash" TEXT NOT NULL,
    "previous_hash" TEXT,
    "rotated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "user_agent" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "revoked_at" TIMESTAMPTZ(3),

    CONSTRAINT "session_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "sign_in_throttle" (
    "key" TEXT NOT NULL,
    "failures" INTEGER NOT NULL,
    "window_start" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "sign_in_throttle_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "crew" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "crew_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "crew_member" (
    "firm_id" UUID NOT NULL,
    "crew_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,

    CONSTRAINT "crew_member_pkey" PRIMARY KEY ("firm_id","crew_id","person_id")
);

-- CreateTable
CREATE TABLE "customer" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "reference" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "email" TEXT,
    "phone" TEXT,
    "address" TEXT,
    "note" TEXT,
    "archived_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "customer_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "site" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "reference" TEXT NOT NULL,
    "customer_id" UUID NOT NULL,
    "name" TEXT,
    "address_line" TEXT NOT NULL,
    "locality" TEXT NOT NULL,
    "postcode" TEXT NOT NULL,
    "country" TEXT NOT NULL,
    "latitude" DOUBLE PRECISION NOT NULL,
    "longitude" DOUBLE PRECISION NOT NULL,
    "time_zone" TEXT NOT NULL,
    "supply" TEXT NOT NULL,
    "region" TEXT NOT NULL,
    "archived_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "site_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "product_model" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "maker" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "attributes" JSONB NOT NULL,
    "serial_mask" TEXT NOT NULL,
    "serial_check" TEXT NOT NULL,
    "firmware_scheme" TEXT NOT NULL,
    "switch_map" JSONB,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "product_model_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "bank" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "site_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "protocol" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "bank_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "unit" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "model_id" UUID NOT NULL,
    "serial" TEXT NOT NULL,
    "hardware_revision" TEXT,
    "state" TEXT NOT NULL,
    "site_id" UUID,
    "bank_id" UUID,
    "bank_position" INTEGER,
    "replaces_unit_id" UUID,
    "firmware_level" TEXT,
    "firmware_key" BIGINT,
    "firmware_read_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "unit_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "unit_event" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "unit_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "site_id" UUID,
    "job_id" UUID,
    "person_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "note" TEXT,
    "other_unit_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "unit_event_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "firmware_reading" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "unit_id" UUID NOT NULL,
    "level" TEXT NOT NULL,
    "level_key" BIGINT,
    "read_at" TIMESTAMPTZ(3) NOT NULL,
    "source" TEXT NOT NULL,
    "job_id" UUID,
    "person_id" UUID,
    "flag" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "firmware_reading_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "firmware_release" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "model_id" UUID NOT NULL,
    "level" TEXT NOT NULL,
    "level_key" BIGINT NOT NULL,
    "severity" TEXT NOT NULL,
    "released_on" DATE NOT NULL,
    "notes" TEXT,
    "file_sha256" TEXT,
    "withdrawn_on" DATE,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "firmware_release_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "firmware_target" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "model_id" UUID NOT NULL,
    "release_id" UUID NOT NULL,
    "target_key" BIGINT NOT NULL,
    "set_at" TIMESTAMPTZ(3) NOT NULL,
    "due_on" DATE NOT NULL,
    "set_by_id" UUID,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "firmware_target_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "instrument" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "reference" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "instrument_class" TEXT NOT NULL,
    "serial" TEXT NOT NULL,
    "accuracy" JSONB,
    "range_max" JSONB,
    "resolution" JSONB,
    "interval_months" INTEGER NOT NULL DEFAULT 12,
    "interval_cycles" INTEGER,
    "retired_on" DATE,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "instrument_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "calibration" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "calibrated_on" DATE NOT NULL,
    "due_on" DATE NOT NULL,
    "passed" BOOLEAN NOT NULL,
    "certificate" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "calibration_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "plan" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "plan_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "plan_version" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "plan_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "state" TEXT NOT NULL,
    "document" JSONB NOT NULL,
    "sha256" TEXT NOT NULL,
    "published_at" TIMESTAMPTZ(3),
    "published_by_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "plan_version_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "job" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "reference" TEXT NOT NULL,
    "site_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "plan_version_id" UUID NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'open',
    "close_out_id" UUID,
    "created_by_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "job_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "job_unit" (
    "firm_id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "unit_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,

    CONSTRAINT "job_unit_pkey" PRIMARY KEY ("firm_id","job_id","unit_id")
);

-- CreateTable
CREATE TABLE "visit" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "crew_id" UUID NOT NULL,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'booked',
    "note" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "visit_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "visit_booking" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,
    "crew_id" UUID,
    "person_id" UUID,
    "instrument_id" UUID,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "visit_booking_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "answer" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "item_id" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "value" JSONB NOT NULL,
    "number_si" DOUBLE PRECISION,
    "instrument_id" UUID,
    "note" TEXT,
    "photos" TEXT[],
    "taken_at" TIMESTAMPTZ(3) NOT NULL,
    "taken_at_text" TEXT NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "person_id" UUID NOT NULL,
    "receipt_order" INTEGER NOT NULL,
    "outcome" TEXT NOT NULL,
    "clears" BOOLEAN NOT NULL,
    "verdict" JSONB NOT NULL,
    "body_sha256" TEXT NOT NULL,

    CONSTRAINT "answer_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "photo" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "sha256" TEXT NOT NULL,
    "media_type" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "width_px" INTEGER NOT NULL,
    "height_px" INTEGER NOT NULL,
    "item_id" TEXT,
    "subject" TEXT,
    "person_id" UUID NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "photo_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "concession" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "item_id" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "granted_by_id" UUID NOT NULL,
    "granted_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_on" DATE,
    "revoked_at" TIMESTAMPTZ(3),
    "revoked_by_id" UUID,

    CONSTRAINT "concession_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "snag" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "title" TEXT NOT NULL,
    "detail" TEXT,
    "state" TEXT NOT NULL DEFAULT 'open',
    "raised_by_id" UUID NOT NULL,
    "raised_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "mended_at" TIMESTAMPTZ(3),
    "mended_by_id" UUID,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "snag_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "close_out" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "plan_version_id" UUID NOT NULL,
    "rule_version" TEXT NOT NULL,
    "passed" BOOLEAN NOT NULL,
    "facts" JSONB NOT NULL,
    "answers_through" INTEGER NOT NULL,
    "ledger_seq" INTEGER NOT NULL,
    "ledger_sha256" TEXT NOT NULL,
    "closed_by_id" UUID NOT NULL,
    "closed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "close_out_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "reopening" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "close_out_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "reopened_by_id" UUID NOT NULL,
    "reopened_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "ledger_seq" INTEGER NOT NULL,

    CONSTRAINT "reopening_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "ledger_entry" (
    "firm_id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "seq" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "at" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "previous" TEXT NOT NULL,
    "sha256" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "ledger_entry_pkey" PRIMARY KEY ("firm_id","job_id","seq")
);

-- CreateTable
CREATE TABLE "idempotency_key" (
    "firm_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "operation" TEXT NOT NULL,
    "body_sha256" TEXT NOT NULL,
    "status" INTEGER,
    "location" TEXT,
    "response" JSONB,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "idempotency_key_pkey" PRIMARY KEY ("firm_id","person_id","key")
);

-- CreateTable
CREATE TABLE "reference_counter" (
    "firm_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "year" INTEGER NOT NULL,
    "last" INTEGER NOT NULL,

    CONSTRAINT "reference_counter_pkey" PRIMARY KEY ("firm_id","kind","year")
);

-- CreateTable
CREATE TABLE "due_list_record" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "day" DATE NOT NULL,
    "site_count" INTEGER NOT NULL,
    "unit_count" INTEGER NOT NULL,
    "entries" JSONB NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "due_list_record_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "notice" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "day" DATE NOT NULL,
    "person_id" UUID NOT NULL,
    "content_sha256" TEXT NOT NULL,
    "mail_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "notice_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateTable
CREATE TABLE "mail" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "recipient" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "text_body" TEXT NOT NULL,
    "html_body" TEXT,
    "state" TEXT NOT NULL DEFAULT 'waiting',
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "last_error" TEXT,
    "not_before" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "sent_at" TIMESTAMPTZ(3),
    "message_id" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "mail_pkey" PRIMARY KEY ("firm_id","id")
);

-- CreateIndex
CREATE UNIQUE INDEX "person_email_key" ON "person"("email");

-- CreateIndex
CREATE INDEX "session_firm_id_person_id_idx" ON "session"("firm_id", "person_id");

-- CreateIndex
CREATE UNIQUE INDEX "crew_firm_id_name_key" ON "crew"("firm_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "customer_firm_id_reference_key" ON "customer"("firm_id", "reference");

-- CreateIndex
CREATE INDEX "site_firm_id_customer_id_idx" ON "site"("firm_id", "customer_id");

-- CreateIndex
CREATE UNIQUE INDEX "site_firm_id_reference_key" ON "site"("firm_id", "reference");

-- CreateIndex
CREATE UNIQUE INDEX "product_model_firm_id_code_key" ON "product_model"("firm_id", "code");

-- CreateIndex
CREATE UNIQUE INDEX "bank_firm_id_site_id_name_key" ON "bank"("firm_id", "site_id", "name");

-- CreateIndex
CREATE INDEX "unit_firm_id_site_id_idx" ON "unit"("firm_id", "site_id");

-- CreateIndex
CREATE INDEX "unit_firm_id_model_id_firmware_key_site_id_idx" ON "unit"("firm_id", "model_id", "firmware_key", "site_id");

-- CreateIndex
CREATE UNIQUE INDEX "unit_firm_id_model_id_serial_key" ON "unit"("firm_id", "model_id", "serial");

-- CreateIndex
CREATE INDEX "unit_event_firm_id_unit_id_at_idx" ON "unit_event"("firm_id", "unit_id", "at");

-- CreateIndex
CREATE INDEX "firmware_reading_firm_id_unit_id_read_at_idx" ON "firmware_reading"("firm_id", "unit_id", "read_at");

-- CreateIndex
CREATE UNIQUE INDEX "firmware_release_firm_id_model_id_level_key" ON "firmware_release"("firm_id", "model_id", "level");

-- CreateIndex
CREATE UNIQUE INDEX "firmware_target_firm_id_model_id_key" ON "firmware_target"("firm_id", "model_id");

-- CreateIndex
CREATE UNIQUE INDEX "instrument_firm_id_reference_key" ON "instrument"("firm_id", "reference");

-- CreateIndex
CREATE INDEX "calibration_firm_id_instrument_id_calibrated_on_idx" ON "calibration"("firm_id", "instrument_id", "calibrated_on");

-- CreateIndex
CREATE UNIQUE INDEX "plan_firm_id_code_key" ON "plan"("firm_id", "code");

-- CreateIndex
CREATE UNIQUE INDEX "plan_version_firm_id_plan_id_number_key" ON "plan_version"("firm_id", "plan_id", "number");

-- CreateIndex
CREATE INDEX "job_firm_id_state_created_at_idx" ON "job"("firm_id", "state", "created_at");

-- CreateIndex
CREATE INDEX "job_firm_id_site_id_idx" ON "job"("firm_id", "site_id");

-- CreateIndex
CREATE UNIQUE INDEX "job_firm_id_reference_key" ON "job"("firm_id", "reference");

-- CreateIndex
CREATE UNIQUE INDEX "job_unit_firm_id_job_id_position_key" ON "job_unit"("firm_id", "job_id", "position");

-- CreateIndex
CREATE INDEX "visit_firm_id_starts_at_idx" ON "visit"("firm_id", "starts_at");

-- CreateIndex
CREATE INDEX "visit_firm_id_job_id_idx" ON "visit"("firm_id", "job_id");

-- CreateIndex
CREATE INDEX "visit_booking_firm_id_visit_id_idx" ON "visit_booking"("firm_id", "visit_id");

-- CreateIndex
CREATE INDEX "answer_firm_id_instrument_id_idx" ON "answer"("firm_id", "instrument_id");

-- CreateIndex
CREATE UNIQUE INDEX "answer_firm_id_job_id_receipt_order_key" ON "answer"("firm_id", "job_id", "receipt_order");

-- CreateIndex
CREATE UNIQUE INDEX "photo_firm_id_job_id_sha256_key" ON "photo"("firm_id", "job_id", "sha256");

-- CreateIndex
CREATE INDEX "concession_firm_id_job_id_idx" ON "concession"("firm_id", "job_id");

-- CreateIndex
CREATE INDEX "snag_firm_id_job_id_idx" ON "snag"("firm_id", "job_id");

-- CreateIndex
CREATE INDEX "close_out_firm_id_job_id_idx" ON "close_out"("firm_id", "job_id");

-- CreateIndex
CREATE UNIQUE INDEX "reopening_firm_id_close_out_id_key" ON "reopening"("firm_id", "close_out_id");

-- CreateIndex
CREATE INDEX "idempotency_key_created_at_idx" ON "idempotency_key"("created_at");

-- CreateIndex
CREATE UNIQUE INDEX "due_list_record_firm_id_day_key" ON "due_list_record"("firm_id", "day");

-- CreateIndex
CREATE UNIQUE INDEX "notice_firm_id_kind_day_person_id_key" ON "notice"("firm_id", "kind", "day", "person_id");

-- CreateIndex
CREATE INDEX "mail_state_not_before_idx" ON "mail"("state", "not_before");

-- CreateIndex
CREATE UNIQUE INDEX "mail_firm_id_message_id_key" ON "mail"("firm_id", "message_id");

-- AddForeignKey
ALTER TABLE "person" ADD CONSTRAINT "person_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "session" ADD CONSTRAINT "session_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "session" ADD CONSTRAINT "session_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "crew" ADD CONSTRAINT "crew_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "crew_member" ADD CONSTRAINT "crew_member_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "crew_member" ADD CONSTRAINT "crew_member_firm_id_crew_id_fkey" FOREIGN KEY ("firm_id", "crew_id") REFERENCES "crew"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "crew_member" ADD CONSTRAINT "crew_member_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "customer" ADD CONSTRAINT "customer_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "site" ADD CONSTRAINT "site_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "site" ADD CONSTRAINT "site_firm_id_customer_id_fkey" FOREIGN KEY ("firm_id", "customer_id") REFERENCES "customer"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "product_model" ADD CONSTRAINT "product_model_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "bank" ADD CONSTRAINT "bank_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "bank" ADD CONSTRAINT "bank_firm_id_site_id_fkey" FOREIGN KEY ("firm_id", "site_id") REFERENCES "site"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "unit" ADD CONSTRAINT "unit_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "unit" ADD CONSTRAINT "unit_firm_id_model_id_fkey" FOREIGN KEY ("firm_id", "model_id") REFERENCES "product_model"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "unit" ADD CONSTRAINT "unit_firm_id_site_id_fkey" FOREIGN KEY ("firm_id", "site_id") REFERENCES "site"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "unit" ADD CONSTRAINT "unit_firm_id_bank_id_fkey" FOREIGN KEY ("firm_id", "bank_id") REFERENCES "bank"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "unit" ADD CONSTRAINT "unit_firm_id_replaces_unit_id_fkey" FOREIGN KEY ("firm_id", "replaces_unit_id") REFERENCES "unit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "unit_event" ADD CONSTRAINT "unit_event_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "unit_event" ADD CONSTRAINT "unit_event_firm_id_unit_id_fkey" FOREIGN KEY ("firm_id", "unit_id") REFERENCES "unit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "unit_event" ADD CONSTRAINT "unit_event_firm_id_site_id_fkey" FOREIGN KEY ("firm_id", "site_id") REFERENCES "site"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "unit_event" ADD CONSTRAINT "unit_event_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "unit_event" ADD CONSTRAINT "unit_event_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "unit_event" ADD CONSTRAINT "unit_event_firm_id_other_unit_id_fkey" FOREIGN KEY ("firm_id", "other_unit_id") REFERENCES "unit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "firmware_reading" ADD CONSTRAINT "firmware_reading_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "firmware_reading" ADD CONSTRAINT "firmware_reading_firm_id_unit_id_fkey" FOREIGN KEY ("firm_id", "unit_id") REFERENCES "unit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "firmware_reading" ADD CONSTRAINT "firmware_reading_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "firmware_reading" ADD CONSTRAINT "firmware_reading_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "firmware_release" ADD CONSTRAINT "firmware_release_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "firmware_release" ADD CONSTRAINT "firmware_release_firm_id_model_id_fkey" FOREIGN KEY ("firm_id", "model_id") REFERENCES "product_model"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "firmware_target" ADD CONSTRAINT "firmware_target_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "firmware_target" ADD CONSTRAINT "firmware_target_firm_id_model_id_fkey" FOREIGN KEY ("firm_id", "model_id") REFERENCES "product_model"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "firmware_target" ADD CONSTRAINT "firmware_target_firm_id_release_id_fkey" FOREIGN KEY ("firm_id", "release_id") REFERENCES "firmware_release"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "firmware_target" ADD CONSTRAINT "firmware_target_firm_id_set_by_id_fkey" FOREIGN KEY ("firm_id", "set_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "instrument" ADD CONSTRAINT "instrument_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "calibration" ADD CONSTRAINT "calibration_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "calibration" ADD CONSTRAINT "calibration_firm_id_instrument_id_fkey" FOREIGN KEY ("firm_id", "instrument_id") REFERENCES "instrument"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "plan" ADD CONSTRAINT "plan_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "plan_version" ADD CONSTRAINT "plan_version_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "plan_version" ADD CONSTRAINT "plan_version_firm_id_plan_id_fkey" FOREIGN KEY ("firm_id", "plan_id") REFERENCES "plan"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "plan_version" ADD CONSTRAINT "plan_version_firm_id_published_by_id_fkey" FOREIGN KEY ("firm_id", "published_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_firm_id_site_id_fkey" FOREIGN KEY ("firm_id", "site_id") REFERENCES "site"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_firm_id_plan_version_id_fkey" FOREIGN KEY ("firm_id", "plan_version_id") REFERENCES "plan_version"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_firm_id_close_out_id_fkey" FOREIGN KEY ("firm_id", "close_out_id") REFERENCES "close_out"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_firm_id_created_by_id_fkey" FOREIGN KEY ("firm_id", "created_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "job_unit" ADD CONSTRAINT "job_unit_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "job_unit" ADD CONSTRAINT "job_unit_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "job_unit" ADD CONSTRAINT "job_unit_firm_id_unit_id_fkey" FOREIGN KEY ("firm_id", "unit_id") REFERENCES "unit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "visit" ADD CONSTRAINT "visit_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "visit" ADD CONSTRAINT "visit_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "visit" ADD CONSTRAINT "visit_firm_id_crew_id_fkey" FOREIGN KEY ("firm_id", "crew_id") REFERENCES "crew"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "visit_booking" ADD CONSTRAINT "visit_booking_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "visit_booking" ADD CONSTRAINT "visit_booking_firm_id_visit_id_fkey" FOREIGN KEY ("firm_id", "visit_id") REFERENCES "visit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "visit_booking" ADD CONSTRAINT "visit_booking_firm_id_crew_id_fkey" FOREIGN KEY ("firm_id", "crew_id") REFERENCES "crew"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "visit_booking" ADD CONSTRAINT "visit_booking_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "visit_booking" ADD CONSTRAINT "visit_booking_firm_id_instrument_id_fkey" FOREIGN KEY ("firm_id", "instrument_id") REFERENCES "instrument"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "answer" ADD CONSTRAINT "answer_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "answer" ADD CONSTRAINT "answer_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "answer" ADD CONSTRAINT "answer_firm_id_instrument_id_fkey" FOREIGN KEY ("firm_id", "instrument_id") REFERENCES "instrument"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "answer" ADD CONSTRAINT "answer_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "photo" ADD CONSTRAINT "photo_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "photo" ADD CONSTRAINT "photo_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "photo" ADD CONSTRAINT "photo_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "concession" ADD CONSTRAINT "concession_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "concession" ADD CONSTRAINT "concession_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "concession" ADD CONSTRAINT "concession_firm_id_granted_by_id_fkey" FOREIGN KEY ("firm_id", "granted_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "concession" ADD CONSTRAINT "concession_firm_id_revoked_by_id_fkey" FOREIGN KEY ("firm_id", "revoked_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "snag" ADD CONSTRAINT "snag_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "snag" ADD CONSTRAINT "snag_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "snag" ADD CONSTRAINT "snag_firm_id_raised_by_id_fkey" FOREIGN KEY ("firm_id", "raised_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "snag" ADD CONSTRAINT "snag_firm_id_mended_by_id_fkey" FOREIGN KEY ("firm_id", "mended_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "close_out" ADD CONSTRAINT "close_out_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "close_out" ADD CONSTRAINT "close_out_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "close_out" ADD CONSTRAINT "close_out_firm_id_plan_version_id_fkey" FOREIGN KEY ("firm_id", "plan_version_id") REFERENCES "plan_version"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "close_out" ADD CONSTRAINT "close_out_firm_id_closed_by_id_fkey" FOREIGN KEY ("firm_id", "closed_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reopening" ADD CONSTRAINT "reopening_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reopening" ADD CONSTRAINT "reopening_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reopening" ADD CONSTRAINT "reopening_firm_id_close_out_id_fkey" FOREIGN KEY ("firm_id", "close_out_id") REFERENCES "close_out"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reopening" ADD CONSTRAINT "reopening_firm_id_reopened_by_id_fkey" FOREIGN KEY ("firm_id", "reopened_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "ledger_entry" ADD CONSTRAINT "ledger_entry_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "ledger_entry" ADD CONSTRAINT "ledger_entry_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "idempotency_key" ADD CONSTRAINT "idempotency_key_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "idempotency_key" ADD CONSTRAINT "idempotency_key_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "reference_counter" ADD CONSTRAINT "reference_counter_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "due_list_record" ADD CONSTRAINT "due_list_record_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "notice" ADD CONSTRAINT "notice_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "notice" ADD CONSTRAINT "notice_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "notice" ADD CONSTRAINT "notice_firm_id_mail_id_fkey" FOREIGN KEY ("firm_id", "mail_id") REFERENCES "mail"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "mail" ADD CONSTRAINT "mail_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;


-- Row-level security, forced even on the tables' owner.
CREATE FUNCTION current_firm() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE AS
$$ SELECT nullif(current_setting('app.firm_id', true), '')::uuid $$;

DO $$
DECLARE t text;
BEGIN
  FOR t IN SELECT table_name FROM information_schema.columns
           WHERE table_schema = current_schema() AND column_name = 'firm_id'
  LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
  END LOOP;
END $$;

ALTER TABLE firm ENABLE ROW LEVEL SECURITY;
ALTER TABLE firm FORCE ROW LEVEL SECURITY;
CREATE POLICY own_firm ON firm USING (id = (SELECT current_firm())) WITH CHECK (id = (SELECT current_firm()));
-- Scheduled runs go through the firms one by one; they need the list, and read nothing else by it.
CREATE POLICY listed_for_runs ON firm FOR SELECT USING (current_setting('app.purpose', true) = 'runs');
-- Signing in starts from an address, before any firm is known: that one row and no other.
CREATE POLICY signing_in ON person FOR SELECT
  USING (email = nullif(current_setting('app.sign_in_email', true), '')::citext);

-- What the application may do. Records that must stay are never granted UPDATE or DELETE.
GRANT USAGE ON SCHEMA public TO holdpoint_app;
GRANT SELECT, INSERT, UPDATE ON
  firm, person, session, sign_in_throttle, crew, customer, site, product_model, bank, unit,
  firmware_release, firmware_target, instrument, plan, plan_version, job, visit, concession, snag,
  idempotency_key, reference_counter, mail TO holdpoint_app;
GRANT SELECT, INSERT ON
  unit_event, firmware_reading, calibration, answer, photo, close_out, reopening, ledger_entry,
  due_list_record, notice, crew_member, job_unit, visit_booking TO holdpoint_app;
GRANT DELETE ON crew_member, job_unit, visit_booking, sign_in_throttle, idempotency_key, session
  TO holdpoint_app;
GRANT UPDATE ON visit_booking, job_unit TO holdpoint_app;
