// An earth electrode must hold accessible metal below the touch voltage until the RCD
// trips (IEC), or be low enough on its own to stand as the only rod (NEC).
import type { Citation } from "./reference-table.ts";

export interface TouchVoltageRule extends Citation {
  readonly touchVoltageV: number;
  /** Above this an electrode may dry out or freeze past the limit, whatever it reads today. */
  readonly unstableAboveOhm: number;
}

export const TT_ELECTRODE: TouchVoltageRule = {
  clause: "IEC 60364-4-41 411.5.3; BS 7671 Table 41.5",
  edition: "IEC 60364-4-41:2005; BS 7671:2018",
  found: "memory",
  touchVoltageV: 50,
  unstableAboveOhm: 200,
};

export const SINGLE_ROD: Citation & { readonly maxOhm: number } = {
  clause: "NEC 250.53(A)(2)",
  edition: "NEC, edition not recorded",
  found: "memory",
  maxOhm: 25,
};
