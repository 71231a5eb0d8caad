-- One that was entered by a slip may go; the keys of its jobs keep any that has opened one.
GRANT DELETE ON recurring_inspection TO holdpoint_app;
