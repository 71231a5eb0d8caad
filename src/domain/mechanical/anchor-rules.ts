// How tension and shear on one anchor combine. The exponents differ by standard and edition and are
// from memory, so they are data with their edition; the engine knows only the form of the rule.

export interface AnchorRule {
  id: string;
  document: string;
  edition: string;
  clause: string;
  certainty: "memory" | "seen in a secondary page";
  /** Exponent of (N/NRd)^a + (V/VRd)^a ≤ limit, by what fails. */
  exponents: { concrete: number; steel: number };
  limit: number;
}

export const ANCHOR_RULES: readonly AnchorRule[] = [
  {
    id: "en-1992-4-2018",
    document: "EN 1992-4",
    edition: "2018",
    clause: "Table 7.3",
    certainty: "memory",
    exponents: { concrete: 1.5, steel: 2 },
    limit: 1,
  },
  {
    id: "etag-001-annex-c",
    document: "ETAG 001 Annex C",
    edition: "simplified method, superseded",
    clause: "combined tension and shear",
    certainty: "seen in a secondary page",
    exponents: { concrete: 1.5, steel: 2 },
    limit: 1,
  },
];
