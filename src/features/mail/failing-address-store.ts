// Customers' addresses that a mail server refused for good: nothing more is sent to them until
// somebody has mended them. An edit of the address clears the mark by itself, in the database.
import type { FirmTransaction } from "../../db/scope.ts";

export interface FailingAddress {
  customerId: string;
  reference: string;
  name: string;
  email: string;
  failingSince: Date;
  reason: string;
}

/** Marks every customer of the firm who has the address; the first reason stays. */
export async function markAddressFailing(
  tx: FirmTransaction,
  email: string,
  reason: string,
  at: Date,
): Promise<void> {
  await tx.$executeRaw`UPDATE customer
    SET email_failing_at = ${at}, email_failing_reason = ${reason}
    WHERE firm_id = ${tx.firmId}::uuid AND lower(email) = lower(${email})
      AND email_failing_at IS NULL`;
}

export async function listFailingAddresses(
  tx: FirmTransaction,
  { after, most }: { after?: string | undefined; most: number },
): Promise<FailingAddress[]> {
  const rows = await tx.customer.findMany({
    where: {
      firmId: tx.firmId,
      emailFailingAt: { not: null },
      ...(after ? { id: { gt: after } } : {}),
    },
    orderBy: { id: "asc" },
    take: most,
  });
  return rows.map(({ id, reference, name, email, emailFailingAt, emailFailingReason }) => ({
    ...{ customerId: id, reference, name, email: email ?? "" },
    failingSince: emailFailingAt ?? new Date(0),
    reason: emailFailingReason ?? "",
  }));
}

/** False when the firm has no customer of this id whose address fails. */
export async function clearFailingAddress(tx: FirmTransaction, customerId: string) {
  const { count } = await tx.customer.updateMany({
    where: { firmId: tx.firmId, id: customerId, emailFailingAt: { not: null } },
    data: { emailFailingAt: null, emailFailingReason: null },
  });
  return count === 1;
}
