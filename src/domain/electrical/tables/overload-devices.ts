// Overload protection holds when the device's conventional tripping current stays within
// 1.45 times what the cable carries: IEC 60364-4-43 433.1.
import type { Citation, ReferenceTable } from "./reference-table.ts";

export type OverloadDevice =
  | "breaker-iec-60898"
  | "rcbo-iec-61009"
  | "breaker-iec-60947-2"
  | "fuse-gg";

export const COORDINATION: Citation & { readonly i2Share: number } = {
  clause: "IEC 60364-4-43 433.1",
  edition: "IEC 60364-4-43:2008",
  found: "memory",
  i2Share: 1.45,
};

export const OVERLOAD_DEVICES: ReferenceTable<{
  readonly device: OverloadDevice;
  /** Conventional tripping current as a multiple of the rating. */
  readonly i2Multiple: number;
}> = {
  id: "overload-devices",
  family: "IEC",
  clause: "Conventional tripping current (IEC 60898-1, 61009-1, 60947-2, 60269-1)",
  edition: "product standards, editions not recorded",
  found: "memory",
  rows: [
    { device: "breaker-iec-60898", i2Multiple: 1.45 },
    { device: "rcbo-iec-61009", i2Multiple: 1.45 },
    { device: "breaker-iec-60947-2", i2Multiple: 1.3 },
    { device: "fuse-gg", i2Multiple: 1.6 },
  ],
};
