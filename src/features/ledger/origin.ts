/** The tablet's operation that brought a fact, as its ledger entry names it. */
export interface Origin {
  opId: string;
  deviceId: string;
  deviceSeq: number;
  /** Who was signed in when it was sent; another than who took the reading, now and then. */
  sentById: string;
  /** Who let it take effect after it had been held. */
  appliedById?: string;
}
