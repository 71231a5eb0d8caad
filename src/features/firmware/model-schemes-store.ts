import type { FirmTransaction } from "../../db/scope.ts";
import type { FirmwareScheme } from "../../domain/firmware/levels.ts";

/** How each of these models orders its levels; those that the firm does not have are left out. */
export async function modelSchemes(
  tx: FirmTransaction,
  ids: readonly string[],
): Promise<Map<string, FirmwareScheme>> {
  if (ids.length === 0) return new Map();
  const rows = await tx.productModel.findMany({
    where: { firmId: tx.firmId, id: { in: [...ids] } },
    select: { id: true, firmwareScheme: true },
  });
  return new Map(rows.map((row) => [row.id, row.firmwareScheme as FirmwareScheme]));
}
