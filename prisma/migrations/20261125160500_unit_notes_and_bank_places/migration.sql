ALTER TABLE "unit" ADD COLUMN "note" TEXT;

-- A place in a bank holds one pack, and a pack belongs to a bank only where it is installed itself.
ALTER TABLE unit
  ADD CHECK (bank_position IS NULL OR bank_id IS NOT NULL),
  ADD CHECK (bank_position BETWEEN 1 AND 64);
CREATE UNIQUE INDEX unit_bank_place ON unit (firm_id, bank_id, bank_position)
  WHERE bank_position IS NOT NULL;

CREATE FUNCTION unit_bank_at_its_site() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NOT EXISTS (SELECT FROM bank WHERE firm_id = NEW.firm_id AND id = NEW.bank_id
                 AND site_id = NEW.site_id) THEN
    RAISE EXCEPTION 'the bank is not at the site of unit %', NEW.serial
      USING ERRCODE = 'check_violation', CONSTRAINT = 'unit_bank_at_its_site';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER unit_bank_at_its_site BEFORE INSERT OR UPDATE OF site_id, bank_id ON unit
  FOR EACH ROW WHEN (NEW.bank_id IS NOT NULL) EXECUTE FUNCTION unit_bank_at_its_site();
