import type { FirmTransaction } from "../../db/scope.ts";

/** Names of people of the firm by id. */
export async function namesOf(
  tx: FirmTransaction,
  ids: readonly string[],
): Promise<ReadonlyMap<string, string>> {
  const rows = await tx.person.findMany({
    where: { firmId: tx.firmId, id: { in: [...new Set(ids)] } },
    select: { id: true, name: true },
  });
  return new Map(rows.map(({ id, name }) => [id, name]));
}
