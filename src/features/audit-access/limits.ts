import type { FirmTransaction } from "../../db/scope.ts";
import { readFirm } from "../firms/store.ts";
import { findPerson } from "../people/store.ts";
import { namedScope } from "./scope-words.ts";
import type { AccessLimits, GivenAccess } from "./standing.ts";
import { type AccessRow, giverFor, isOnlyAuditor, isScoped, listAccesses } from "./store.ts";

/** The limits of an auditor who is nothing else. */
export async function limitsOf(
  tx: FirmTransaction,
  { id, roles }: { id: string; roles: readonly string[] },
): Promise<AccessLimits | undefined> {
  if (!isOnlyAuditor(roles)) return undefined;
  const [row] = await listAccesses(tx, id, 1);
  const { name, timeZone } = await readFirm(tx);
  const owner = row ? undefined : await findPerson(tx, await giverFor(tx, id));
  return {
    ...{ personId: id, firm: { name, timeZone }, access: row && (await given(tx, row)) },
    contact: row?.withdrawnBy ??
      row?.givenBy ?? { name: owner?.name ?? "", email: owner?.email ?? "" },
  };
}

async function given(tx: FirmTransaction, row: AccessRow): Promise<GivenAccess> {
  const { period, models } = await namedScope(tx, row);
  return {
    ...{ id: row.id, withdrawnAt: row.withdrawnAt, isScoped: isScoped(row) },
    ...{ fromOn: day(row.fromOn), untilOn: row.untilOn && day(row.untilOn) },
    within: { period, models, siteCount: row.siteIds.length },
  };
}

const day = (date: Date): string => date.toISOString().slice(0, 10);
