-- What a restrictive policy asks comes before all else, and then the words are not sought through
-- their index any more. So the index of words asks for both in its one policy.
DROP POLICY audit_scope ON search_entry;
DROP POLICY own_firm_sought ON search_entry;
CREATE POLICY own_firm_sought ON search_entry FOR SELECT USING (
  firm_id = (SELECT current_firm()) AND words %> (SELECT search_word(1))
  AND words %> (SELECT search_word(2)) AND words %> (SELECT search_word(3))
  AND ((SELECT audit_scope()) IS NULL OR CASE kind
    WHEN 'customer' THEN subject_id IN (SELECT audited_customers((SELECT audit_scope())))
    WHEN 'site' THEN subject_id IN (SELECT audited_sites((SELECT audit_scope())))
    WHEN 'unit' THEN subject_id IN (SELECT audited_units((SELECT audit_scope())))
    WHEN 'job' THEN subject_id IN (SELECT audited_jobs((SELECT audit_scope())))
    ELSE true END));
