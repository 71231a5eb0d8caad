// What was read off three packs lately: one as it should be, one that will use up its throughput
// before its last day, one that was too hot. Amounts are invented.
import type { FirmTransaction } from "../db/scope.ts";
import { daysBetween } from "../domain/dates/plain-date.ts";
import { localDay } from "../domain/dates/zone-time.ts";
import { type By, keepReading } from "../features/warranty/keep-warranty.ts";
import { FIRM } from "./tables/people.ts";

const PACKS = [
  { kwhADay: 4.5, temperature: { lowest: 9, highest: 38 } },
  { kwhADay: 9.5, temperature: { lowest: 12, highest: 41 } },
  { kwhADay: 5, temperature: { lowest: 11, highest: 51 } },
] as const;

export async function loadReadings(
  tx: FirmTransaction,
  packs: readonly { unitId: string; commissionedOn: string | null }[],
  by: By,
): Promise<void> {
  const readOn = localDay(by.now.toISOString(), FIRM.timeZone);
  for (const [index, { kwhADay, temperature }] of PACKS.entries()) {
    const pack = packs[index];
    if (!pack?.commissionedOn || pack.commissionedOn > readOn) continue;
    const throughputKwh = Math.round(kwhADay * daysBetween(pack.commissionedOn, readOn));
    await keepReading(tx, pack.unitId, { readOn, throughputKwh, temperature }, by);
  }
}
