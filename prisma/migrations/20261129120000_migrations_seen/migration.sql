-- The service says that it is not ready while a migration is missing, so its own role reads which
-- ones were applied. Where another tool applies these files the table may not be there yet.
DO $$
BEGIN
  IF to_regclass('_prisma_migrations') IS NOT NULL THEN
    GRANT SELECT ON _prisma_migrations TO holdpoint_app;
  END IF;
END
$$;
