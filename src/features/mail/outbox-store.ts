// The outbox as people see it, and as files where no mail server is set.
import type { FirmTransaction } from "../../db/scope.ts";
import type { WaitingMail } from "./store.ts";

const FILED =
  "No mail server is set (SMTP_URL). The mail waits here and lies as a file in DATA_DIR/mail.";

/** Waiting mails that were not written as files yet. */
export async function listUnfiled(
  tx: FirmTransaction,
  now: Date,
  most: number,
): Promise<WaitingMail[]> {
  return tx.mail.findMany({
    where: {
      firmId: tx.firmId,
      state: "waiting",
      notBefore: { lte: now },
      OR: [{ lastError: null }, { lastError: { not: FILED } }],
    },
    orderBy: { id: "asc" },
    take: most,
  });
}

export async function markFiled(tx: FirmTransaction, id: string): Promise<void> {
  await tx.mail.updateMany({
    where: { firmId: tx.firmId, id, state: "waiting" },
    data: { lastError: FILED },
  });
}

export async function listMails(
  tx: FirmTransaction,
  filter: { state?: string; after?: string; most: number },
) {
  return tx.mail.findMany({
    where: {
      firmId: tx.firmId,
      ...(filter.state ? { state: filter.state } : {}),
      ...(filter.after ? { id: { gt: filter.after } } : {}),
    },
    orderBy: { id: "asc" },
    take: filter.most,
  });
}

export async function findMail(tx: FirmTransaction, id: string) {
  return tx.mail.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

/** Lets a failed mail begin anew under its own Message-ID; undefined when it has not failed. */
export async function requeueMail(tx: FirmTransaction, id: string, now: Date) {
  const [row] = await tx.mail.updateManyAndReturn({
    where: { firmId: tx.firmId, id, state: "failed" },
    data: { state: "waiting", attempts: 0, notBefore: now, lastError: null },
  });
  return row;
}
