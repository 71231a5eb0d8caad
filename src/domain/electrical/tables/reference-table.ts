// Rules differ between IEC, BS and NEC and between editions, so every table carries its
// clause, its edition and how its values were come by; none is a bare constant.

/** How the values were come by; told to the reader of every answer that uses them. */
export type Found = "memory" | "seen in a secondary page" | "computed";

export interface Citation {
  /** Standard and clause or table, as a reader would look it up. */
  readonly clause: string;
  readonly edition: string;
  readonly found: Found;
  /** What is unsure about it or depends on the edition. */
  readonly caveat?: string;
}

export interface ReferenceTable<Row> extends Citation {
  readonly id: string;
  readonly family: "IEC" | "BS" | "NEC" | "UL" | "AS/NZS" | "ASTM" | "ISO";
  readonly rows: readonly Row[];
}
