import type { FirmTransaction } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { readFirm } from "./store.ts";

/** The day it is by the firm's calendar. */
export async function todayOfFirm(tx: FirmTransaction, now: Date): Promise<string> {
  return localDay(now.toISOString(), (await readFirm(tx)).timeZone);
}
