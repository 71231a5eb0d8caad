/** What limits an auditor at the moment of a request. */
export interface AuditStanding {
  /** Who is an auditor and nothing else: the database reads within what was given to them. */
  auditorId?: string | undefined;
  /** Id of the access to read within; undefined where it is to the whole firm. */
  scope?: string | undefined;
  /** Last day, where there is one. */
  untilOn?: string | undefined;
  /** Why nothing can be done now, in a sentence for the auditor. */
  refusal?: string | undefined;
}
