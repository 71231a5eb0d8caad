-- Keys with which programs read: only a hash of the secret is kept.
CREATE TABLE "api_key" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "secret_hash" TEXT NOT NULL,
    "scopes" TEXT[] NOT NULL,
    "created_by_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3),
    "last_used_at" TIMESTAMPTZ(3),
    "revoked_at" TIMESTAMPTZ(3),

    CONSTRAINT "api_key_pkey" PRIMARY KEY ("firm_id","id")
);
ALTER TABLE "api_key" ADD CONSTRAINT "api_key_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "api_key" ADD CONSTRAINT "api_key_firm_id_created_by_id_fkey" FOREIGN KEY ("firm_id", "created_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- Where events are sent; the secrets that sign them are sealed.
CREATE TABLE "webhook_endpoint" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "url" TEXT NOT NULL,
    "kinds" TEXT[] NOT NULL,
    "sealed_secret" BYTEA NOT NULL,
    "sealed_previous" BYTEA,
    "previous_until" TIMESTAMPTZ(3),
    "state" TEXT NOT NULL DEFAULT 'active' CHECK ("state" IN ('active', 'disabled')),
    "failing_since" TIMESTAMPTZ(3),
    "created_by_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "webhook_endpoint_pkey" PRIMARY KEY ("firm_id","id")
);
ALTER TABLE "webhook_endpoint" ADD CONSTRAINT "webhook_endpoint_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "webhook_endpoint" ADD CONSTRAINT "webhook_endpoint_firm_id_created_by_id_fkey" FOREIGN KEY ("firm_id", "created_by_id") REFERENCES "person"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- One event on its way to one endpoint, written with what it tells of.
CREATE TABLE "webhook_delivery" (
    "firm_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "endpoint_id" UUID NOT NULL,
    "event_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'waiting' CHECK ("state" IN ('waiting', 'delivered', 'failed')),
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "next_at" TIMESTAMPTZ(3) NOT NULL,
    "last_status" INTEGER,
    "last_error" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "delivered_at" TIMESTAMPTZ(3),

    CONSTRAINT "webhook_delivery_pkey" PRIMARY KEY ("firm_id","id")
);
CREATE INDEX "webhook_delivery_firm_id_state_next_at_idx" ON "webhook_delivery"("firm_id", "state", "next_at");
CREATE INDEX "webhook_delivery_firm_id_endpoint_id_id_idx" ON "webhook_delivery"("firm_id", "endpoint_id", "id");
ALTER TABLE "webhook_delivery" ADD CONSTRAINT "webhook_delivery_firm_id_fkey" FOREIGN KEY ("firm_id") REFERENCES "firm"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "webhook_delivery" ADD CONSTRAINT "webhook_delivery_firm_id_endpoint_id_fkey" FOREIGN KEY ("firm_id", "endpoint_id") REFERENCES "webhook_endpoint"("firm_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['api_key', 'webhook_endpoint', 'webhook_delivery'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY own_firm ON %I USING (firm_id = (SELECT current_firm()))
                    WITH CHECK (firm_id = (SELECT current_firm()))', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT, UPDATE ON api_key, webhook_endpoint, webhook_delivery TO holdpoint_app;
