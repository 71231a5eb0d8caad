-- A registration, and a version of terms, entered by a slip can be taken back.
GRANT DELETE ON "warranty_registration" TO holdpoint_app;
GRANT DELETE ON "warranty_terms" TO holdpoint_app;
