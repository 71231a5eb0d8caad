-- The texts beside the ledger belong to a job: an auditor within a scope reads those of its jobs.
SELECT keep_in_audit_scope('ledger_text');
