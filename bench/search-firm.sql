-- A firm of 200,000 units, made up: 50,000 customers, 60,000 sites and 100,000 jobs of one firm, and half
-- as many of another beside it. Names are syllables drawn with a fixed seed.
CREATE FUNCTION pg_temp.made_up(syllables integer) RETURNS text LANGUAGE sql VOLATILE AS $$
  SELECT initcap(string_agg((ARRAY['ba', 'den', 'mor', 'ley', 'har', 'win', 'tor', 'sel', 'kin', 'bro',
    'wick', 'ham', 'ros', 'vel', 'tan', 'gri', 'mel', 'dor', 'fen', 'cal', 'ny', 'osh', 'lar', 'pet',
    'urn', 'zel', 'ith', 'and', 'ock', 'eth'])[1 + floor(random() * 30)::integer], ''))
  FROM generate_series(1, syllables)
$$;

CREATE FUNCTION pg_temp.fill(firm uuid, customers integer) RETURNS void LANGUAGE plpgsql AS $$
DECLARE
  model uuid := gen_random_uuid();
  plan uuid := gen_random_uuid();
  plan_version uuid := gen_random_uuid();
  sites integer := customers * 6 / 5;
BEGIN
  INSERT INTO firm (id, name, time_zone, updated_at) VALUES (firm, 'Bench', 'UTC', now());
  INSERT INTO product_model (firm_id, id, code, name, maker, kind, attributes, serial_mask, serial_check,
      firmware_scheme, updated_at)
    VALUES (firm, model, 'M', 'M', 'M', 'battery-pack', '{}', '*', 'none', 'semver', now());
  INSERT INTO plan (firm_id, id, code, title, updated_at) VALUES (firm, plan, 'P', 'P', now());
  INSERT INTO plan_version (firm_id, id, plan_id, number, state, document, sha256, updated_at)
    VALUES (firm, plan_version, plan, 1, 'published', '{"stages": []}', '0', now());
  CREATE TEMP TABLE one_customer AS
    SELECT n, gen_random_uuid() AS id FROM generate_series(1, customers) n;
  INSERT INTO customer (firm_id, id, reference, name, email, phone, updated_at)
    SELECT firm, id, 'C-2026-' || to_char(n, 'FM000000'),
      pg_temp.made_up(2 + n % 2) || ' ' || pg_temp.made_up(2 + n % 3), 'a' || n || '@mail.example',
      '+44 ' || (7000000000 + floor(random() * 999999999))::text, now() FROM one_customer;
  CREATE TEMP TABLE one_site AS SELECT n, gen_random_uuid() AS id FROM generate_series(1, sites) n;
  INSERT INTO site (firm_id, id, reference, customer_id, address_line, locality, postcode, country,
      latitude, longitude, time_zone, supply, region, updated_at)
    SELECT firm, s.id, 'S-2026-' || to_char(s.n, 'FM000000'), c.id, (1 + s.n % 180) || ' '
      || pg_temp.made_up(2 + s.n % 2) || ' '
      || (ARRAY['Row', 'Street', 'Lane', 'Road', 'Close', 'Way', 'Avenue'])[1 + s.n % 7],
      pg_temp.made_up(3), 'NW' || (s.n % 90) || ' ' || (s.n % 9) || 'ZZ', 'GB', 51 + random(),
      -1 + random(), 'UTC', 'TT', 'uk', now()
    FROM one_site s JOIN one_customer c ON c.n = 1 + s.n % customers;
  INSERT INTO unit (firm_id, id, model_id, serial, state, site_id, updated_at)
    SELECT firm, gen_random_uuid(), model,
      'FSA26' || lpad(((g.n::bigint * 7919) % 10000000)::text, 7, '0'), 'installed', s.id, now()
    FROM generate_series(1, customers * 4) g (n) JOIN one_site s ON s.n = 1 + g.n % sites;
  INSERT INTO job (firm_id, id, reference, site_id, kind, title, plan_version_id, updated_at)
    SELECT firm, gen_random_uuid(), 'J-2026-' || to_char(g.n, 'FM000000'), s.id, 'install',
      (ARRAY['Two packs in the garage', 'Inverter swap', 'Firmware update', 'Pack on the east wall',
        'Annual inspection'])[1 + g.n % 5], plan_version, now()
    FROM generate_series(1, customers * 2) g (n) JOIN one_site s ON s.n = 1 + g.n % sites;
  DROP TABLE one_customer, one_site;
END $$;

SELECT setseed(0.2026);
SELECT pg_temp.fill('00000000-0000-7000-8000-000000000001', 50000);
SELECT pg_temp.fill('00000000-0000-7000-8000-000000000002', 25000);
