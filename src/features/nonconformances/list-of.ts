import type { FirmTransaction } from "../../db/scope.ts";
import { todayOfFirm } from "../firms/today.ts";
import { listNonconformances, type NonconformanceFilter } from "./store.ts";

type Asked = Omit<NonconformanceFilter, "before" | "most" | "dueBefore">;

/** The asked ones of a page, the latest first; overdue by the firm's calendar. */
export async function listOf(
  tx: FirmTransaction,
  { overdue, ...filter }: Asked & { overdue?: "true" | undefined },
  now: Date,
  page: Pick<NonconformanceFilter, "before" | "most">,
) {
  const past = overdue ? { dueBefore: new Date(await todayOfFirm(tx, now)) } : {};
  return listNonconformances(tx, { ...filter, ...past, ...page });
}
