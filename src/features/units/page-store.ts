import type { FirmTransaction } from "../../db/scope.ts";
import { sortedRows } from "../../db/sorted-rows.ts";
import { normaliseSerial } from "../../domain/identifiers/check-serial.ts";
import type { Sorting } from "../../web/sorted-list.ts";

export interface UnitListRow {
  id: string;
  serial: string;
  modelCode: string;
  modelName: string;
  state: string;
  siteId: string | null;
  siteReference: string | null;
  locality: string | null;
  firmwareLevel: string | null;
}

export const UNIT_COLUMNS = ["serial", "model", "site", "firmwareLevel"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  serial: "u.serial",
  model: "m.code",
  site: "coalesce(s.reference, '')",
  firmwareLevel: "coalesce(u.firmware_level, '')",
};

export interface UnitPageFilter {
  serial?: string | undefined;
  modelId?: string | undefined;
  siteId?: string | undefined;
  state?: string | undefined;
  firmwareLevel?: string | undefined;
  sorting: Sorting;
  most: number;
}

export async function listForPage(tx: FirmTransaction, filter: UnitPageFilter) {
  const { serial, modelId, siteId, state, firmwareLevel, sorting, most } = filter;
  return sortedRows<UnitListRow>(tx, {
    select: `u.id, u.serial, m.code AS "modelCode", m.name AS "modelName", u.state,
      u.site_id AS "siteId", s.reference AS "siteReference", s.locality,
      u.firmware_level AS "firmwareLevel"`,
    from: `unit u JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
      LEFT JOIN site s ON s.firm_id = u.firm_id AND s.id = u.site_id`,
    where: [
      "u.firm_id = $1::uuid",
      // True of every unit; it lets the index of serial numbers give the order.
      "u.serial ~>=~ ''",
      "($2::text IS NULL OR strpos(u.serial, $2) > 0)",
      "($3::uuid IS NULL OR u.model_id = $3::uuid)",
      "($4::uuid IS NULL OR u.site_id = $4::uuid)",
      "($5::text IS NULL OR u.state = $5)",
      "($6::text IS NULL OR u.firmware_level = $6)",
    ],
    values: [
      tx.firmId,
      serial === undefined ? null : normaliseSerial(serial),
      ...[modelId, siteId, state, firmwareLevel].map((value) => value ?? null),
    ],
    by: ORDERS[sorting.column] ?? "u.serial",
    id: "u.id",
    descending: sorting.descending,
    after: sorting.after,
    most,
  });
}
