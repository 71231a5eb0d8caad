/** What limits an auditor at the moment of a request. */
export interface AuditStanding {
  /** Who is an auditor and nothing else: the database reads within what was given to them. */
  auditorId?: string | undefined;
  /** Id of the access to read within; undefined where it is to the whole firm. */
  scope?: string | undefined;
  /** Last day, where there is one. */
  untilOn?: string | undefined;
  /** Days until the last one, which has none left; undefined where none is the last. */
  daysLeft?: number | undefined;
  /** What the scope is, for people. */
  within?: AuditWithin | undefined;
  /** Why nothing can be done now, in a sentence for the auditor. */
  refusal?: string | undefined;
}

/** With nothing in it, the whole firm. */
export interface AuditWithin {
  period: { from: string; to: string } | null;
  /** Codes of product models. */
  models: readonly string[];
  siteCount: number;
}
