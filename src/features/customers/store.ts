import { uuidv7 } from "uuidv7";
import { nextReference } from "../../db/references.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import type { Language } from "../../language/languages.ts";

export interface CustomerFields {
  name: string;
  email?: string | null;
  phone?: string | null;
  address?: string | null;
  note?: string | null;
  language?: Language | null;
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

const SITES_TOLD_MOST = 10;

/** The customer's sites that are on the lists, each with the references of its open jobs. */
export async function standingSites(tx: FirmTransaction, customerId: string) {
  const rows = await tx.site.findMany({
    where: { firmId: tx.firmId, customerId, archivedAt: null },
    select: {
      reference: true,
      jobs: { where: { state: "open" }, select: { reference: true }, take: SITES_TOLD_MOST },
    },
    orderBy: { id: "asc" },
    take: SITES_TOLD_MOST,
  });
  return rows.map(({ reference, jobs }) => ({
    reference,
    openJobs: jobs.map((job) => job.reference),
  }));
}
