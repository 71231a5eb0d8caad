-- What customers are told of their visits, the mails' way out, and calendars by secret address.

-- RFC 5545 3.8.7.4: rises with each change of the hours, and with the cancellation.
ALTER TABLE "visit" ADD COLUMN "sequence" INTEGER NOT NULL DEFAULT 0;

ALTER TABLE "mail" ADD COLUMN "kind" TEXT NOT NULL DEFAULT 'notice';
ALTER TABLE "mail" ADD COLUMN "sender_name" TEXT;
ALTER TABLE "mail" ADD COLUMN "reply_to" TEXT;
ALTER TABLE "mail" ADD COLUMN "customer_id" UUID;
ALTER TABLE "mail" ADD COLUMN "visit_id" UUID;
ALTER TABLE "mail" ADD COLUMN "quiet" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "mail" ADD COLUMN "once_key" TEXT;
ALTER TABLE "mail" ADD COLUMN "claimed_until" TIMESTAMPTZ(3);
ALTER TABLE "mail" ADD COLUMN "last_attempt_at" TIMESTAMPTZ(3);
ALTER TABLE "mail" DROP CONSTRAINT "mail_state_check";
ALTER TABLE "mail" ADD CONSTRAINT "mail_state_check"
  CHECK ("state" IN ('waiting', 'held', 'sent', 'failed', 'cancelled', 'returned'));
CREATE UNIQUE INDEX "mail_firm_id_once_key_key" ON "mail"("firm_id", "once_key");
CREATE INDEX "mail_firm_id_visit_id_idx" ON "mail"("firm_id", "visit_id");
ALTER TABLE "mail" ADD CONSTRAINT "mail_firm_id_customer_id_fkey" FOREIGN KEY ("firm_id", "customer_id") REFERENCES "customer"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "mail" ADD CONSTRAINT "mail_firm_id_visit_id_fkey" FOREIGN KEY ("firm_id", "visit_id") REFERENCES "visit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

CREATE TABLE "mail_attachment" (
    "firm_id" UUID NOT NULL,
    "mail_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "content_type" TEXT NOT NULL,
    "content" BYTEA NOT NULL,

    CONSTRAINT "mail_attachment_pkey" PRIMARY KEY ("firm_id","mail_id","number")
);
ALTER TABLE "mail_attachment" ADD CONSTRAINT "mail_attachment_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "mail_attachment" ADD CONSTRAINT "mail_attachment_firm_id_mail_id_fkey" FOREIGN KEY ("firm_id", "mail_id") REFERENCES "mail"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- A row only once a firm has changed what the defaults say.
CREATE TABLE "mail_settings" (
    "firm_id" UUID NOT NULL,
    "sender_name" TEXT,
    "reply_to" TEXT,
    "confirmation" BOOLEAN NOT NULL DEFAULT true,
    "change" BOOLEAN NOT NULL DEFAULT true,
    "cancellation" BOOLEAN NOT NULL DEFAULT true,
    "reminder" BOOLEAN NOT NULL DEFAULT true,
    "reminder_hour" INTEGER NOT NULL DEFAULT 10 CHECK ("reminder_hour" BETWEEN 0 AND 23),
    "hold_back_minutes" INTEGER NOT NULL DEFAULT 5 CHECK ("hold_back_minutes" BETWEEN 0 AND 120),
    "quiet_from" TEXT CHECK ("quiet_from" ~ '^([01][0-9]|2[0-3]):[0-5][0-9]$'),
    "quiet_to" TEXT CHECK ("quiet_to" ~ '^([01][0-9]|2[0-3]):[0-5][0-9]$'),
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "mail_settings_pkey" PRIMARY KEY ("firm_id"),
    CHECK (("quiet_from" IS NULL) = ("quiet_to" IS NULL))
);
ALTER TABLE "mail_settings" ADD CONSTRAINT "mail_settings_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- When the customer of a visit is to be told something, and for which start they were reminded.
CREATE TABLE "visit_telling" (
    "firm_id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,
    "due_at" TIMESTAMPTZ(3),
    "changed_at" TIMESTAMPTZ(3),
    "reminded_starts_at" TIMESTAMPTZ(3),

    CONSTRAINT "visit_telling_pkey" PRIMARY KEY ("firm_id","visit_id")
);
CREATE INDEX "visit_telling_firm_id_due_at_idx" ON "visit_telling"("firm_id", "due_at");
ALTER TABLE "visit_telling" ADD CONSTRAINT "visit_telling_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "visit_telling" ADD CONSTRAINT "visit_telling_firm_id_visit_id_fkey" FOREIGN KEY ("firm_id", "visit_id") REFERENCES "visit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- What the customer was told of a visit: by which mail, or by none where the office told it itself.
CREATE TABLE "visit_told" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,
    "mail_id" UUID,
    "state" TEXT NOT NULL CHECK ("state" IN ('booked', 'cancelled')),
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "told_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "visit_told_pkey" PRIMARY KEY ("firm_id","id")
);
CREATE INDEX "visit_told_firm_id_visit_id_id_idx" ON "visit_told"("firm_id", "visit_id", "id");
ALTER TABLE "visit_told" ADD CONSTRAINT "visit_told_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "visit_told" ADD CONSTRAINT "visit_told_firm_id_visit_id_fkey" FOREIGN KEY ("firm_id", "visit_id") REFERENCES "visit"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "visit_told" ADD CONSTRAINT "visit_told_firm_id_mail_id_fkey" FOREIGN KEY ("firm_id", "mail_id") REFERENCES "mail"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "customer" ADD COLUMN "email_failing_at" TIMESTAMPTZ(3);
ALTER TABLE "customer" ADD COLUMN "email_failing_reason" TEXT;

-- A person's calendar; the secret itself is shown once and kept by nobody here.
CREATE TABLE "calendar_address" (
    "firm_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "secret_hash" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "fetched_at" TIMESTAMPTZ(3),

    CONSTRAINT "calendar_address_pkey" PRIMARY KEY ("firm_id","person_id")
);
CREATE UNIQUE INDEX "calendar_address_secret_hash_key" ON "calendar_address"("secret_hash");
ALTER TABLE "calendar_address" ADD CONSTRAINT "calendar_address_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "calendar_address" ADD CONSTRAINT "calendar_address_firm_id_person_id_fkey" FOREIGN KEY ("firm_id", "person_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['mail_attachment', 'mail_settings', 'visit_telling', 'visit_told',
    'calendar_address'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
  END LOOP;
END $$;
-- A calendar is asked for by its secret, before any firm is known: that one row and no other.
CREATE POLICY asked_for ON calendar_address FOR SELECT
  USING (secret_hash = nullif(current_setting('app.calendar_hash', true), ''));

GRANT SELECT, INSERT, UPDATE ON mail_settings, visit_telling, calendar_address TO holdpoint_app;
GRANT SELECT, INSERT ON mail_attachment, visit_told TO holdpoint_app;
GRANT DELETE ON calendar_address TO holdpoint_app;

CREATE FUNCTION visit_sequence() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  NEW.sequence := OLD.sequence + 1;
  RETURN NEW;
END $$;
CREATE TRIGGER visit_sequence BEFORE UPDATE ON visit FOR EACH ROW
  WHEN ((OLD.starts_at, OLD.ends_at, OLD.state) IS DISTINCT FROM (NEW.starts_at, NEW.ends_at, NEW.state))
  EXECUTE FUNCTION visit_sequence();

-- Whichever way a visit is booked, moved or cancelled, that its customer is to be told stands in the
-- same transaction. Changes that follow soon are told together; nobody is kept waiting by them for
-- longer than six times the hold-back.
CREATE FUNCTION visit_to_tell() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE hold interval := make_interval(mins => coalesce(
  (SELECT hold_back_minutes FROM mail_settings WHERE firm_id = NEW.firm_id), 5));
BEGIN
  INSERT INTO visit_telling AS t (firm_id, visit_id, due_at, changed_at)
  VALUES (NEW.firm_id, NEW.id, now() + hold, now())
  ON CONFLICT (firm_id, visit_id) DO UPDATE SET
    changed_at = coalesce(t.changed_at, excluded.changed_at),
    due_at = least(excluded.due_at, coalesce(t.changed_at, excluded.changed_at) + 6 * hold);
  RETURN NULL;
END $$;
CREATE TRIGGER visit_to_tell_new AFTER INSERT ON visit FOR EACH ROW EXECUTE FUNCTION visit_to_tell();
CREATE TRIGGER visit_to_tell_changed AFTER UPDATE ON visit FOR EACH ROW
  WHEN ((OLD.starts_at, OLD.ends_at, OLD.state) IS DISTINCT FROM (NEW.starts_at, NEW.ends_at, NEW.state))
  EXECUTE FUNCTION visit_to_tell();

-- Another address has not failed yet.
CREATE FUNCTION customer_address_mended() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  NEW.email_failing_at := NULL;
  NEW.email_failing_reason := NULL;
  RETURN NEW;
END $$;
CREATE TRIGGER customer_address_mended BEFORE UPDATE ON customer FOR EACH ROW
  WHEN (OLD.email IS DISTINCT FROM NEW.email) EXECUTE FUNCTION customer_address_mended();
