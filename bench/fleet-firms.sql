-- A million units over a thousand firms: one of 200,000, the others of some 800; two models each,
-- of which the first has a target that 30 of 100 units are below.
SET session_replication_role = replica;
CREATE TEMP TABLE f AS SELECT n, gen_random_uuid() AS id,
  CASE WHEN n = 1 THEN 200000 ELSE 800 END AS units, gen_random_uuid() AS customer,
  gen_random_uuid() AS model_a, gen_random_uuid() AS model_b, gen_random_uuid() AS release
FROM generate_series(1, 1000) n;
INSERT INTO firm (id, name, time_zone, updated_at) SELECT id, 'Firm ' || n, 'Europe/London', now() FROM f;
INSERT INTO customer (firm_id, id, reference, name, updated_at)
  SELECT id, customer, 'C-2026-0001', 'Customer', now() FROM f;
INSERT INTO product_model (firm_id, id, code, name, maker, kind, attributes, serial_mask,
    serial_check, firmware_scheme, updated_at)
  SELECT f.id, m.id, m.code, m.code, 'Fellside Storage', 'battery-pack', '{}', '*{9}', 'none',
    'semver', now()
  FROM f, LATERAL (VALUES (model_a, 'A'), (model_b, 'B')) m(id, code);
INSERT INTO firmware_release (firm_id, id, model_id, level, level_key, severity, released_on)
  SELECT id, release, model_a, '2.0.0', 2000000, 'important', '2026-11-01' FROM f;
INSERT INTO firmware_target (firm_id, id, model_id, release_id, target_key, set_at, due_on)
  SELECT id, gen_random_uuid(), model_a, release, 2000000, now(), '2026-12-01' FROM f;
CREATE TEMP TABLE s AS SELECT f.id AS firm_id, gen_random_uuid() AS id, k, f.customer
  FROM f, LATERAL generate_series(1, f.units / 4) k;
INSERT INTO site (firm_id, id, reference, customer_id, address_line, locality, postcode, country,
    latitude, longitude, time_zone, supply, region, updated_at)
  SELECT firm_id, id, 'S-2026-' || lpad(k::text, 6, '0'), customer, k || ' Kiln Lane', 'Thornbeck',
    'TB1 1AA', 'GB', 52 + random(), -1 - random(), 'Europe/London', 'TN-C-S', 'GB', now() FROM s;
INSERT INTO unit (firm_id, id, model_id, serial, state, site_id, firmware_level, firmware_key,
    firmware_read_at, updated_at)
  SELECT s.firm_id, gen_random_uuid(), CASE WHEN q % 2 = 0 THEN f.model_a ELSE f.model_b END,
    'B' || s.k || 'X' || q, 'installed', s.id, '1.0.0',
    CASE WHEN random() < 0.3 THEN 1000000 ELSE 2000000 END, now(), now()
  FROM s JOIN f ON f.id = s.firm_id, LATERAL generate_series(1, 4) q;
SET session_replication_role = DEFAULT;
ANALYZE;
