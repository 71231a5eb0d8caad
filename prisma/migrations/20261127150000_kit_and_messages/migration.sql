-- Kit and stock: what the maker supplies and what the firm brings, goods-in with the condition a
-- unit came in, consumables by count, the pick list's ticks. And what is said and filed on a job:
-- messages, documents, and how a snag was followed up and shown to be mended.
ALTER TABLE "product_model" ADD COLUMN "kit" JSONB NOT NULL DEFAULT '[]';
ALTER TABLE "unit" ADD COLUMN "stock_place" TEXT, ADD COLUMN "quarantined_at" TIMESTAMPTZ(3);
-- What is in quarantine is in stock: it is neither installed nor worked on anywhere.
ALTER TABLE "unit" ADD CONSTRAINT "unit_quarantined_in_stock"
  CHECK ("quarantined_at" IS NULL OR "state" = 'received');
ALTER TABLE "unit_event" DROP CONSTRAINT "unit_event_kind_check",
  ADD CONSTRAINT "unit_event_kind_check"
    CHECK ("kind" IN ('received', 'installed', 'swapped', 'removed', 'quarantined', 'released'));
-- A crew writes to the office from where there is no signal.
ALTER TABLE "tablet_op" DROP CONSTRAINT "tablet_op_kind_check",
  ADD CONSTRAINT "tablet_op_kind_check"
    CHECK ("kind" IN ('answer', 'stage-time', 'snag', 'close-out', 'message'));
ALTER TABLE "snag"
  ADD COLUMN "follow_up_job_id" UUID,
  ADD COLUMN "follow_up_visit_id" UUID,
  ADD COLUMN "mended_photos" TEXT[] NOT NULL DEFAULT '{}',
  ADD COLUMN "mended_note" TEXT;

CREATE TABLE "goods_in" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "unit_id" UUID NOT NULL,
    "condition" TEXT NOT NULL CHECK ("condition" IN ('sound', 'marked', 'damaged')),
    "checks" JSONB NOT NULL,
    "delivery_note" TEXT,
    "place" TEXT NOT NULL,
    "note" TEXT,
    "person_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "goods_in_pkey" PRIMARY KEY ("firm_id","id")
);

CREATE TABLE "consumable" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "counted_in" TEXT NOT NULL CHECK ("counted_in" IN ('piece', 'm', 'pair', 'set', 'roll')),
    "least_amount" DECIMAL(12,3) CHECK ("least_amount" >= 0),
    "archived_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "consumable_pkey" PRIMARY KEY ("firm_id","id")
);

CREATE TABLE "consumable_movement" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "consumable_id" UUID NOT NULL,
    "place" TEXT NOT NULL,
    "amount" DECIMAL(12,3) NOT NULL,
    "kind" TEXT NOT NULL,
    "job_id" UUID,
    "delivery_note" TEXT,
    "note" TEXT,
    "person_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "consumable_movement_pkey" PRIMARY KEY ("firm_id","id"),
    CONSTRAINT "consumable_movement_direction" CHECK (CASE "kind"
      WHEN 'received' THEN "amount" > 0
      WHEN 'returned' THEN "amount" > 0
      WHEN 'used' THEN "amount" < 0
      WHEN 'written-off' THEN "amount" < 0
      WHEN 'counted' THEN true
      WHEN 'moved' THEN "amount" <> 0
      ELSE false END)
);

-- One tick by one person of one line; taken back, the row says by whom.
CREATE TABLE "kit_tick" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "line_key" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "ticked_at" TIMESTAMPTZ(3) NOT NULL,
    "undone_at" TIMESTAMPTZ(3),
    "undone_by_id" UUID,

    CONSTRAINT "kit_tick_pkey" PRIMARY KEY ("firm_id","id"),
    CONSTRAINT "kit_tick_undone_whole" CHECK (("undone_at" IS NULL) = ("undone_by_id" IS NULL))
);

CREATE TABLE "job_message" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "number" INTEGER NOT NULL CHECK ("number" > 0),
    "text" TEXT NOT NULL,
    "from_tablet" BOOLEAN NOT NULL DEFAULT false,
    "person_id" UUID NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "job_message_pkey" PRIMARY KEY ("firm_id","id")
);

-- How far a person has read in a job's messages.
CREATE TABLE "job_message_seen" (
    "firm_id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "through" INTEGER NOT NULL,

    CONSTRAINT "job_message_seen_pkey" PRIMARY KEY ("firm_id","job_id","person_id")
);

CREATE TABLE "job_document" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "sha256" TEXT NOT NULL CHECK ("sha256" ~ '^[0-9a-f]{64}$'),
    "media_type" TEXT NOT NULL CHECK ("media_type" IN ('application/pdf', 'image/jpeg', 'image/png')),
    "bytes" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL,
    "removed_at" TIMESTAMPTZ(3),
    "removed_by_id" UUID,

    CONSTRAINT "job_document_pkey" PRIMARY KEY ("firm_id","id"),
    CONSTRAINT "job_document_removed_whole" CHECK (("removed_at" IS NULL) = ("removed_by_id" IS NULL))
);

CREATE INDEX "goods_in_firm_id_unit_id_at_idx" ON "goods_in"("firm_id", "unit_id", "at");
CREATE UNIQUE INDEX "consumable_firm_id_code_key" ON "consumable"("firm_id", "code");
CREATE INDEX "consumable_movement_firm_id_consumable_id_place_idx" ON "consumable_movement"("firm_id", "consumable_id", "place");
CREATE INDEX "consumable_movement_firm_id_job_id_idx" ON "consumable_movement"("firm_id", "job_id");
CREATE INDEX "kit_tick_firm_id_job_id_idx" ON "kit_tick"("firm_id", "job_id");
CREATE UNIQUE INDEX "kit_tick_once" ON "kit_tick" ("firm_id", "job_id", "line_key", "person_id") WHERE "undone_at" IS NULL;
CREATE UNIQUE INDEX "job_message_firm_id_job_id_number_key" ON "job_message"("firm_id", "job_id", "number");
CREATE UNIQUE INDEX "job_document_firm_id_job_id_sha256_key" ON "job_document"("firm_id", "job_id", "sha256");
CREATE INDEX "unit_in_stock" ON "unit" ("firm_id", "model_id", "stock_place") WHERE "state" = 'received';

ALTER TABLE "snag" ADD CONSTRAINT "snag_firm_id_follow_up_job_id_fkey" FOREIGN KEY ("firm_id", "follow_up_job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "snag" ADD CONSTRAINT "snag_firm_id_follow_up_visit_id_fkey" FOREIGN KEY ("firm_id", "follow_up_visit_id") REFERENCES "visit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "goods_in" ADD CONSTRAINT "goods_in_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "goods_in" ADD CONSTRAINT "goods_in_firm_id_unit_id_fkey" FOREIGN KEY ("firm_id", "unit_id") REFERENCES "unit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "goods_in" ADD CONSTRAINT "goods_in_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "consumable" ADD CONSTRAINT "consumable_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "consumable_movement" ADD CONSTRAINT "consumable_movement_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "consumable_movement" ADD CONSTRAINT "consumable_movement_firm_id_consumable_id_fkey" FOREIGN KEY ("firm_id", "consumable_id") REFERENCES "consumable"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "consumable_movement" ADD CONSTRAINT "consumable_movement_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "consumable_movement" ADD CONSTRAINT "consumable_movement_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "kit_tick" ADD CONSTRAINT "kit_tick_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "kit_tick" ADD CONSTRAINT "kit_tick_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "kit_tick" ADD CONSTRAINT "kit_tick_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "kit_tick" ADD CONSTRAINT "kit_tick_firm_id_undone_by_id_fkey" FOREIGN KEY ("firm_id", "undone_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "job_message" ADD CONSTRAINT "job_message_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "job_message" ADD CONSTRAINT "job_message_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "job_message" ADD CONSTRAINT "job_message_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "job_message_seen" ADD CONSTRAINT "job_message_seen_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "job_message_seen" ADD CONSTRAINT "job_message_seen_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "job_message_seen" ADD CONSTRAINT "job_message_seen_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "job_document" ADD CONSTRAINT "job_document_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "job_document" ADD CONSTRAINT "job_document_firm_id_job_id_fkey" FOREIGN KEY ("firm_id", "job_id") REFERENCES "job"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "job_document" ADD CONSTRAINT "job_document_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "job_document" ADD CONSTRAINT "job_document_firm_id_removed_by_id_fkey" FOREIGN KEY ("firm_id", "removed_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['goods_in', 'consumable', 'consumable_movement', 'kit_tick', 'job_message',
                           'job_message_seen', 'job_document'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
  END LOOP;
  -- In what condition a unit came, and every movement of stock, are kept as they were written.
  FOREACH t IN ARRAY ARRAY['goods_in', 'consumable_movement'] LOOP
    EXECUTE format('CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON %I
                    FOR EACH ROW EXECUTE FUNCTION is_kept()', t);
    EXECUTE format('CREATE TRIGGER kept_whole BEFORE TRUNCATE ON %I
                    FOR EACH STATEMENT EXECUTE FUNCTION is_kept()', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT ON goods_in, consumable_movement, job_message TO holdpoint_app;
GRANT SELECT, INSERT, UPDATE ON consumable, kit_tick, job_message_seen, job_document TO holdpoint_app;
