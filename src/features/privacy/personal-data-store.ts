// Everything that is held about a customer, read for the customer. What only carries a reference of
// theirs (units, readings) is the technical record and stands in the bags of their jobs.
import type { FirmTransaction } from "../../db/scope.ts";

/** Of each list; more than any household has, and a bound to what one reply holds. */
const ROWS_MOST = 1000;

export async function readPersonalData(tx: FirmTransaction, customerId: string) {
  const { firmId } = tx;
  const customer = await tx.customer.findUnique({
    where: { firmId_id: { firmId, id: customerId } },
    include: { mergedFrom: true },
  });
  if (!customer) return undefined;
  const ids = [customerId, ...customer.mergedFrom.map(({ id }) => id)];
  const sites = await tx.site.findMany({
    where: { firmId, customerId: { in: ids } },
    include: { visitHours: true },
    take: ROWS_MOST,
  });
  const siteIds = sites.map(({ id }) => id);
  const changes = await tx.changeRecord.findMany({
    where: { firmId, subjectId: { in: [...ids, ...siteIds] } },
    select: { kind: true, before: true, after: true, at: true },
    orderBy: { at: "asc" },
    take: ROWS_MOST,
  });
  const mails = await tx.mail.findMany({
    where: { firmId, customerId: { in: ids } },
    select: MAIL,
    take: ROWS_MOST,
  });
  return { customer, sites, mails, changes, ...(await dataOfJobs(tx, siteIds)) };
}

async function dataOfJobs(tx: FirmTransaction, siteIds: readonly string[]) {
  const { firmId } = tx;
  const job = { siteId: { in: [...siteIds] } };
  const ofJobs = { firmId, job };
  const take = ROWS_MOST;
  const [jobs, visits, documents, links, signatures, photos, written] = await Promise.all([
    tx.job.findMany({ where: { firmId, ...job }, select: JOB, take }),
    tx.visit.findMany({ where: ofJobs, select: VISIT, take }),
    tx.jobDocument.findMany({ where: { ...ofJobs, removedAt: null }, select: DOCUMENT, take }),
    tx.handoverLink.findMany({ where: ofJobs, select: LINK, take }),
    tx.answer.findMany({
      where: { ...ofJobs, value: { path: ["name"], not: "" } },
      select: { itemId: true, value: true, receivedAt: true, job: REFERENCE },
      take,
    }),
    tx.photo.findMany({ where: ofJobs, select: PHOTO, take }),
    tx.ledgerText.findMany({
      where: { firmId, entry: { job }, text: { not: null }, NOT: HASHES },
      select: WRITTEN,
      take,
    }),
  ]);
  return { jobs, visits, documents, links, signatures, photos, written };
}

/** Entries of old that stay as they are, with a name or reason in clear, or a note's plain hash. */
export async function countOldEntries(
  tx: FirmTransaction,
  siteIds: readonly string[],
): Promise<{ clear: number; hashes: number }> {
  const [row] = await tx.$queryRaw<{ clear: number; hashes: number }[]>`
    SELECT count(*) FILTER (WHERE jsonb_typeof(e.text::jsonb #> '{body,value,name}') = 'string'
        OR jsonb_typeof(e.text::jsonb #> '{body,reason}') = 'string')::int AS clear,
      count(*) FILTER (WHERE jsonb_typeof(e.text::jsonb #> '{body,noteSha256}') = 'string')::int
        AS hashes
    FROM ledger_entry e
    JOIN job j ON j.firm_id = e.firm_id AND j.id = e.job_id
    WHERE e.firm_id = ${tx.firmId}::uuid AND j.site_id = ANY (${siteIds}::uuid[])
      AND e.kind IN ('answer.taken', 'concession.granted', 'job.cancelled', 'job.reopened',
        'operation.dismissed')`;
  return row ?? { clear: 0, hashes: 0 };
}

/** Units that still stand at the sites. */
export async function countInstalled(
  tx: FirmTransaction,
  siteIds: readonly string[],
): Promise<number> {
  return tx.unit.count({ where: { firmId: tx.firmId, siteId: { in: [...siteIds] } } });
}

const REFERENCE = { select: { reference: true } } as const;
const JOB = { reference: true, kind: true, title: true, state: true, createdAt: true } as const;
const VISIT = { startsAt: true, endsAt: true, state: true, note: true, job: REFERENCE } as const;
const MAIL = {
  ...{ recipient: true, subject: true, textBody: true, state: true },
  ...{ createdAt: true, sentAt: true },
} as const;
const DOCUMENT = {
  name: true,
  mediaType: true,
  bytes: true,
  sha256: true,
  job: REFERENCE,
} as const;
const LINK = { createdAt: true, expiresAt: true, opened: true, job: REFERENCE } as const;
/** What people wrote, by the entry of the ledger that holds its hash. */
const WRITTEN = {
  text: true,
  entry: { select: { kind: true, at: true, job: REFERENCE } },
} as const;
const HASHES = { path: { endsWith: "Sha256" } };
const PHOTO = { sha256: true, bytes: true, receivedAt: true, job: REFERENCE } as const;
