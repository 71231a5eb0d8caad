-- The language in which pages and mails are read; a person's or a customer's own goes before the firm's.
ALTER TABLE "firm" ADD COLUMN "language" TEXT NOT NULL DEFAULT 'en' CHECK ("language" IN ('en', 'es'));
ALTER TABLE "person" ADD COLUMN "language" TEXT CHECK ("language" IN ('en', 'es'));
ALTER TABLE "customer" ADD COLUMN "language" TEXT CHECK ("language" IN ('en', 'es'));
