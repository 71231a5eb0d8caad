import type { FirmTransaction } from "../../db/scope.ts";

/** Ids of the mails to a customer. */
export async function mailsOfCustomer(tx: FirmTransaction, customerId: string): Promise<string[]> {
  const rows = await tx.mail.findMany({
    where: { firmId: tx.firmId, customerId },
    select: { id: true },
  });
  return rows.map(({ id }) => id);
}
