// Limits for protective bonding. None of them is the 0.05 Ω often heard: that figure binds
// only where the job's own documents state it.
import type { Citation, ReferenceTable } from "./reference-table.ts";

export type BondBasis = "main-bonding" | "equipment-bond" | "equipotential-au-nz";

export interface BondLimitRow extends Citation {
  readonly basis: BondBasis;
  readonly maxOhm: number;
}

export const BOND_LIMITS: ReferenceTable<BondLimitRow> = {
  id: "bonding-limits",
  family: "IEC",
  clause: "Accepted resistance of protective bonding",
  edition: "IET, IEC and AS/NZS figures side by side",
  found: "memory",
  rows: [
    {
      basis: "main-bonding",
      maxOhm: 0.1,
      clause: "IET Guidance Note 3, p. 61",
      edition: "GN3, 9th edition",
      found: "seen in a secondary page",
      caveat: "accepted where less than 0.1 Ω is expected; 0.05 Ω is not to be used as a limit.",
    },
    {
      basis: "equipment-bond",
      maxOhm: 0.1,
      clause: "IEC 60950-1 2.6.3.3",
      edition: "IEC 60950-1 (succeeded by IEC 62368-1)",
      found: "seen in a secondary page",
      caveat: "a type test of equipment up to 16 A at 1.5 times its current, not a site limit.",
    },
    {
      basis: "equipotential-au-nz",
      maxOhm: 0.5,
      clause: "AS/NZS 3000 8.3.5",
      edition: "AS/NZS 3000, edition not recorded",
      found: "memory",
      caveat: "depends on the edition.",
    },
  ],
};

export const SUPPLEMENTARY_BONDING: Citation & { readonly acV: number; readonly dcV: number } = {
  clause: "BS 7671 415.2.2; IEC 60364-4-41 415.2.2",
  edition: "BS 7671:2018; IEC 60364-4-41:2005",
  found: "seen in a secondary page",
  caveat: "the DC figure, 120 V, is recalled.",
  acV: 50,
  dcV: 120,
};
