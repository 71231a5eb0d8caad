import type { FirmTransaction } from "../../db/scope.ts";
import type { Role } from "../../web/roles.ts";

/** Everybody with work to plan: an auditor only reads. */
const STAFF: Role[] = ["owner", "office", "manager", "installer"];

export interface StaffFilter {
  /** Only this one. */
  personId?: string | undefined;
  after?: { text: string; id: string } | undefined;
  most: number;
}

/** People who work here now, by name. */
export async function staffByName(
  tx: FirmTransaction,
  { personId, after, most }: StaffFilter,
): Promise<{ id: string; name: string }[]> {
  return tx.person.findMany({
    where: {
      firmId: tx.firmId,
      active: true,
      roles: { hasSome: STAFF },
      ...(personId ? { id: personId } : {}),
      ...(after
        ? { OR: [{ name: { gt: after.text } }, { name: after.text, id: { gt: after.id } }] }
        : {}),
    },
    select: { id: true, name: true },
    orderBy: [{ name: "asc" }, { id: "asc" }],
    take: most,
  });
}
