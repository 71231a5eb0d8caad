// Requirement: what is held about a customer can be erased, and the technical record still verifies
// (Regulation (EU) 2016/679, Articles 17 and 20). The ledger holds what people wrote by its
// salted hash alone; the texts beside it are emptied. A signature as it was drawn and entries of
// old, which hold names and reasons in clear, are kept as proof (Article 17(3)(e)); a note of old
// goes, of which they hold the plain hash.
import type { Database } from "../../db/client.ts";
import { type Actor, type FirmTransaction, inFirm } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { findCustomer } from "../customers/store.ts";
import { appendToLedger } from "../ledger/store.ts";
import { dropMailFiles } from "../mail/mail-files.ts";
import { dropPapers } from "../papers/kept-papers.ts";
import { addErasure, eraseCustomer, findErasure } from "./store.ts";

export interface ErasureAsk {
  customerId: string;
  reason: string;
  personId: string;
}

/** Erases in the transaction; the same again answers with the erasure that was. */
export async function eraseInRecord(tx: FirmTransaction, ask: ErasureAsk, now: Date) {
  const { customerId, reason, personId } = ask;
  const customer = await findCustomer(tx, customerId);
  if (!customer) throw notFound("customer");
  const before = await findErasure(tx, customerId);
  if (before) return { erasure: before, jobIds: [], mailIds: [] };
  if (!customer.archivedAt || customer.mergedIntoId) throw standing(customer);
  const counts = await eraseCustomer(tx, customerId);
  const erasure = await addErasure(tx, { customerId, reason, counts, personId }, now);
  const body = { erasureId: erasure.id, personId };
  for (const jobId of counts.jobs) {
    await appendToLedger(tx, jobId, { kind: "record.erased", body, at: now });
  }
  return { erasure, jobIds: counts.jobs, mailIds: counts.mails };
}

/** Files go after the transaction: until then it may still be undone. */
export async function dropFiles(
  dataFolder: string,
  firmId: string,
  { jobIds, mailIds }: { jobIds: readonly string[]; mailIds: readonly string[] },
): Promise<void> {
  for (const jobId of jobIds) await dropPapers({ dataFolder, firmId, jobId });
  await dropMailFiles(dataFolder, mailIds);
}

const standing = ({
  reference,
  mergedIntoId,
}: {
  reference: string;
  mergedIntoId: string | null;
}) =>
  new Problem(
    "conflict",
    mergedIntoId
      ? `${reference} was merged into another customer. Erase that one.`
      : `${reference} is not archived. Close its jobs, archive its sites, then the customer.`,
  );

/** The whole of it, for a page. */
export async function erase(
  { db, dataFolder, now }: { db: Database; dataFolder: string; now: Date },
  { firmId, personId }: Actor,
  ask: Pick<ErasureAsk, "customerId" | "reason">,
): Promise<void> {
  const done = await inFirm(db, firmId, (tx) => eraseInRecord(tx, { ...ask, personId }, now));
  await dropFiles(dataFolder, firmId, done);
}
