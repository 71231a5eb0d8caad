import { uuidv7 } from "uuidv7";
import { nextReference } from "../../db/references.ts";
import type { FirmTransaction } from "../../db/scope.ts";

export interface SiteFields {
  customerId: string;
  name?: string | null;
  addressLine: string;
  locality: string;
  postcode: string;
  country: string;
  latitude: number;
  longitude: number;
  timeZone: string;
  supply: string;
  region: string;
}

export interface SiteFilter {
  customerId?: string;
  locality?: string;
  postcode?: string;
  region?: string;
  archived: boolean;
  after?: string;
  most: number;
}

export async function listSites(tx: FirmTransaction, filter: SiteFilter) {
  const { customerId, locality, postcode, region } = filter;
  return tx.site.findMany({
    where: {
      firmId: tx.firmId,
      archivedAt: filter.archived ? { not: null } : null,
      ...(filter.after ? { id: { gt: filter.after } } : {}),
      ...(customerId ? { customerId } : {}),
      ...(locality ? { locality: { contains: locality, mode: "insensitive" } } : {}),
      ...(postcode ? { postcode: { startsWith: postcode, mode: "insensitive" } } : {}),
      ...(region ? { region } : {}),
    },
    orderBy: { id: "asc" },
    take: filter.most,
  });
}

export async function findSite(tx: FirmTransaction, id: string) {
  return tx.site.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

/** The site with the first `unitsMost` of its units, and how many units and open jobs it has. */
export async function findSiteWithUnits(tx: FirmTransaction, id: string, unitsMost: number) {
  return tx.site.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: {
      units: {
        where: { state: "installed" },
        include: { model: true },
        orderBy: [{ bankId: "asc" }, { bankPosition: "asc" }, { id: "asc" }],
        take: unitsMost,
      },
      _count: {
        select: { units: { where: { state: "installed" } }, jobs: { where: { state: "open" } } },
      },
    },
  });
}

const JOBS_TOLD_MOST = 10;

/** How many open jobs the site has, and the references of the first of them. */
export async function openJobsAt(tx: FirmTransaction, siteId: string) {
  const where = { firmId: tx.firmId, siteId, state: "open" };
  const jobs = await tx.job.findMany({
    where,
    select: { reference: true },
    orderBy: { id: "asc" },
    take: JOBS_TOLD_MOST,
  });
  return {
    count: await tx.job.count({ where }),
    references: jobs.map(({ reference }) => reference),
  };
}

export async function addSite(tx: FirmTransaction, fields: SiteFields, now: Date) {
  const reference = await nextReference(tx, "S", now);
  return tx.site.create({ data: { firmId: tx.firmId, id: uuidv7(), reference, ...fields } });
}

/** Undefined when the row has another version by now. */
export async function editSite(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: Partial<SiteFields> & { archivedAt?: Date | null },
) {
  const [row] = await tx.site.updateManyAndReturn({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return row;
}
