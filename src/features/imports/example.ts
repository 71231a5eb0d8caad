import { CSV_MARK, csvLines } from "../../web/csv.ts";
import { kindOf } from "./kinds.ts";
import type { ImportKindName } from "./schemas.ts";

/** One invented row of each kind, by field; the rest stays empty. */
const ROWS: Readonly<Record<ImportKindName, Readonly<Record<string, string>>>> = {
  customers: { reference: "K-0001", name: "Hanne Osei", email: "hanne@osei.example" },
  sites: {
    ...{ customer: "K-0001", addressLine: "4 Kiln Lane", locality: "Thornbeck" },
    ...{ postcode: "TB1 2QF", country: "GB", latitude: "52.19", longitude: "-1.71" },
    ...{ timeZone: "Europe/London", supply: "TN-C-S", region: "uk" },
  },
  units: { model: "LANTERN-5", serial: "LN500012345", hardwareRevision: "B" },
  instruments: {
    ...{ reference: "INS-07", name: "Insulation tester", instrumentClass: "insulation-tester" },
    ...{ serial: "88-1204", intervalMonths: "12", calibratedOn: "2026-03-02" },
  },
  "firmware-levels": { serial: "LN500012345", level: "2.4.0", readAt: "2026-11-20T09:30:00Z" },
};

/** A file with every column that a kind can have, and one row. */
export function exampleOf(kind: ImportKindName): string {
  const names = kindOf(kind).fields.map(({ name }) => name);
  return CSV_MARK + csvLines([names, names.map((name) => ROWS[kind][name] ?? "")]);
}
