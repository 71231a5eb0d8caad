import type { FirmTransaction } from "../../db/scope.ts";
import type { WorkDay } from "../../domain/scheduling/work-week.ts";

/** The version of what has never been written. */
const UNWRITTEN = 1;

export async function readVisitHours(tx: FirmTransaction, siteId: string) {
  const row = await tx.visitHours.findUnique({
    where: { firmId_siteId: { firmId: tx.firmId, siteId } },
  });
  return {
    siteId,
    hours: (row?.hours ?? []) as unknown as WorkDay[],
    version: row?.version ?? UNWRITTEN,
  };
}

/** False when they have another version by now. */
export async function writeVisitHours(
  tx: FirmTransaction,
  siteId: string,
  version: number,
  wanted: readonly WorkDay[],
): Promise<boolean> {
  const { firmId } = tx;
  const hours = wanted
    .toSorted((a, b) => a.weekday - b.weekday || a.from.localeCompare(b.from))
    .map((one) => ({ ...one }));
  const { count } =
    version === UNWRITTEN
      ? await tx.visitHours.createMany({
          data: [{ firmId, siteId, hours, version: UNWRITTEN + 1 }],
          skipDuplicates: true,
        })
      : await tx.visitHours.updateMany({
          where: { firmId, siteId, version },
          data: { hours, version: { increment: 1 } },
        });
  return count === 1;
}

/** Of those of these sites whose customers have named hours. */
export async function visitHoursOf(
  tx: FirmTransaction,
  siteIds: readonly string[],
): Promise<ReadonlyMap<string, WorkDay[]>> {
  const rows = await tx.visitHours.findMany({
    where: { firmId: tx.firmId, siteId: { in: [...siteIds] } },
    select: { siteId: true, hours: true },
  });
  return new Map(rows.map(({ siteId, hours }) => [siteId, hours as unknown as WorkDay[]]));
}
