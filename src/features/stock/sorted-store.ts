// Units in stock and consumables as their pages show them: in the order of a column.
import type { FirmTransaction } from "../../db/scope.ts";
import { inPlaces, sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { listConsumables } from "./consumable-store.ts";
import { listStockUnits } from "./store.ts";

export const STOCK_COLUMNS = ["serial", "model", "place", "received"] as const;
const STOCK_ORDERS: Readonly<Record<string, string>> = {
  serial: "u.serial",
  model: "m.code",
  place: "lower(coalesce(u.stock_place, ''))",
  received: "u.id::text",
};
const STOCK_FROM = `unit u JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id`;
const STOCK_CONDITIONS = [
  "u.firm_id = $1::uuid AND u.state = 'received'",
  "($2::uuid IS NULL OR u.model_id = $2)",
  "($3::text IS NULL OR coalesce(u.stock_place, '') = $3)",
  "($4::text IS NULL OR strpos(u.serial, upper($4)) > 0)",
  "($5::boolean IS NULL OR (u.quarantined_at IS NOT NULL) = $5)",
  `($6::boolean IS NULL OR $6 <> EXISTS (SELECT FROM job_unit k
    JOIN job j ON j.firm_id = k.firm_id AND j.id = k.job_id
    WHERE k.firm_id = u.firm_id AND k.unit_id = u.id AND j.state = 'open'))`,
];

export interface SortedStockFilter {
  modelId?: string | undefined;
  place?: string | undefined;
  serial?: string | undefined;
  quarantined?: boolean | undefined;
  free?: boolean | undefined;
  sorting: Sorting;
  most: number;
}

export async function sortedStock(tx: FirmTransaction, filter: SortedStockFilter) {
  const { modelId, place, serial, quarantined, free, sorting, most } = filter;
  const found = await sortedRows<{ id: string }>(tx, {
    ...{ select: "u.id", from: STOCK_FROM, where: STOCK_CONDITIONS },
    values: [
      ...[tx.firmId, modelId ?? null, place ?? null, serial || null],
      ...[quarantined ?? null, free ?? null],
    ],
    by: STOCK_ORDERS[sorting.column] ?? "u.id::text",
    ...{ id: "u.id", descending: sorting.descending, after: sorting.after, most },
  });
  const units = await listStockUnits(tx, { ids: found.map(({ id }) => id), most });
  // Where a unit lies is not its place in the list.
  const rows = units.map(({ place: lies, ...unit }) => ({ ...unit, lies }));
  return inPlaces(rows, found);
}

export const CONSUMABLE_COLUMNS = ["code", "name"] as const;
const CONSUMABLE_ORDERS: Readonly<Record<string, string>> = {
  code: "c.code",
  name: "fold_text(c.name)",
};
const CONSUMABLE_CONDITIONS = [
  "c.firm_id = $1::uuid AND c.archived_at IS NULL",
  "($2::text IS NULL OR strpos(c.code, upper($2)) > 0)",
];

export async function sortedConsumables(
  tx: FirmTransaction,
  filter: { code?: string | undefined; sorting: Sorting; most: number },
) {
  const { code, sorting, most } = filter;
  const found = await sortedRows<{ id: string }>(tx, {
    ...{ select: "c.id", from: "consumable c", where: CONSUMABLE_CONDITIONS },
    values: [tx.firmId, code ?? null],
    by: CONSUMABLE_ORDERS[sorting.column] ?? "c.id::text",
    ...{ id: "c.id", descending: sorting.descending, after: sorting.after, most },
  });
  const ids = found.map(({ id }) => id);
  return inPlaces(await listConsumables(tx, { ids, most }), found);
}
