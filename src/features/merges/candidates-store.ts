import type { FirmTransaction } from "../../db/scope.ts";
import type { CustomerLooks, SiteLooks } from "../../domain/registry/likeness.ts";

const CANDIDATES_MOST = 40;
/** About fifty metres of latitude; longitude is closer. */
const NEAR_DEGREES = 0.0005;

export async function customersByContact(
  tx: FirmTransaction,
  { email }: CustomerLooks,
): Promise<string[]> {
  if (!email) return [];
  const rows = await tx.customer.findMany({
    where: { firmId: tx.firmId, email: { equals: email, mode: "insensitive" } },
    select: { id: true },
    take: CANDIDATES_MOST,
  });
  return rows.map(({ id }) => id);
}

export async function sitesNearby(tx: FirmTransaction, site: SiteLooks): Promise<string[]> {
  const around = (value: number) => ({ gte: value - NEAR_DEGREES, lte: value + NEAR_DEGREES });
  const rows = await tx.site.findMany({
    where: {
      firmId: tx.firmId,
      latitude: around(site.latitude),
      longitude: around(site.longitude),
    },
    select: { id: true },
    take: CANDIDATES_MOST,
  });
  return rows.map(({ id }) => id);
}

const standing = (tx: FirmTransaction, ids: string[], selfId: string) => ({
  firmId: tx.firmId,
  id: { in: ids, not: selfId },
  mergedIntoId: null,
  archivedAt: null,
});

export async function readCustomers(tx: FirmTransaction, ids: string[], selfId: string) {
  return tx.customer.findMany({ where: standing(tx, ids, selfId) });
}

export async function readSites(tx: FirmTransaction, ids: string[], selfId: string) {
  return tx.site.findMany({ where: standing(tx, ids, selfId), include: { customer: true } });
}
