import type { FirmTransaction } from "../../db/scope.ts";
import { todayOfFirm } from "../firms/today.ts";
import { listNonconformances, type NonconformanceFilter } from "./store.ts";

type Asked = Omit<NonconformanceFilter, "before" | "most" | "dueBefore" | "effectBefore">;

/** The asked ones of a page, the latest first; overdue by the firm's calendar. */
export async function listOf(
  tx: FirmTransaction,
  {
    overdue,
    effectOverdue,
    ...filter
  }: Asked & { overdue?: "true" | undefined; effectOverdue?: "true" | undefined },
  now: Date,
  page: Pick<NonconformanceFilter, "before" | "most">,
) {
  const today = overdue || effectOverdue ? new Date(await todayOfFirm(tx, now)) : undefined;
  const past = {
    ...(overdue && today ? { dueBefore: today } : {}),
    ...(effectOverdue && today ? { effectBefore: today } : {}),
  };
  return listNonconformances(tx, { ...filter, ...past, ...page });
}
