import { uuidv7 } from "uuidv7";
import { nextReference } from "../../db/references.ts";
import type { FirmTransaction } from "../../db/scope.ts";

export interface CustomerFields {
  name: string;
  email?: string | null;
  phone?: string | null;
  address?: string | null;
  note?: string | null;
}

export interface CustomerFilter {
  name?: string;
  archived: boolean;
  after?: string;
  most: number;
}

export async function listCustomers(tx: FirmTransaction, filter: CustomerFilter) {
  return tx.customer.findMany({
    where: {
      firmId: tx.firmId,
      archivedAt: filter.archived ? { not: null } : null,
      ...(filter.after ? { id: { gt: filter.after } } : {}),
      ...(filter.name ? { name: { contains: filter.name, mode: "insensitive" } } : {}),
    },
    orderBy: { id: "asc" },
    take: filter.most,
  });
}

export async function findCustomer(tx: FirmTransaction, id: string) {
  return tx.customer.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

export async function addCustomer(tx: FirmTransaction, fields: CustomerFields, now: Date) {
  const reference = await nextReference(tx, "C", now);
  return tx.customer.create({ data: { firmId: tx.firmId, id: uuidv7(), reference, ...fields } });
}

/** Undefined when the row has another version by now. */
export async function editCustomer(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: Partial<CustomerFields> & { archivedAt?: Date | null },
) {
  const [row] = await tx.customer.updateManyAndReturn({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return row;
}
