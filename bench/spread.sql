-- The firms that work in the load: their units and jobs are spread over sites, four units and a job
-- or two at each, instead of lying at one.
SET session_replication_role = replica;
CREATE TEMP TABLE spread AS SELECT s.firm_id, s.id AS one, gen_random_uuid() AS id, k, s.customer_id
  FROM site s JOIN firm f ON f.id = s.firm_id AND f.name = 'Bench', generate_series(0, 199) k;
INSERT INTO site (firm_id, id, reference, customer_id, address_line, locality, postcode, country,
    latitude, longitude, time_zone, supply, region, updated_at)
  SELECT firm_id, id, 'S-2026-' || lpad((k + 2)::text, 4, '0'), customer_id, k || ' Kiln Lane',
    'Thornbeck', 'TB1 1AA', 'GB', 52 + random(), -1 - random(), 'Europe/London', 'TN-C-S', 'GB', now()
  FROM spread;
UPDATE unit u SET site_id = s.id FROM spread s
  WHERE s.firm_id = u.firm_id AND u.serial::int % 200 = s.k AND u.serial ~ '^\d{8}$';
UPDATE job j SET site_id = s.id FROM spread s
  WHERE s.firm_id = j.firm_id AND substring(j.reference FROM 3)::int % 200 = s.k;
SET session_replication_role = DEFAULT;
