import type { FirmTransaction } from "../../db/scope.ts";
import { cautionsAt } from "../../domain/scheduling/cautions.ts";
import { dayAt } from "../../domain/scheduling/work-week.ts";
import { crewFacts } from "../diary/facts-store.ts";
import { shownMoments } from "../diary/shown-moments.ts";
import { wishFor } from "../diary/wish.ts";
import type { VisitRow } from "./store.ts";

const DAY_MS = 86_400_000;

/** What is worth knowing of a booked visit: hours, drives, what runs out, who lacks what by now. */
export async function visitCautions(tx: FirmTransaction, row: VisitRow) {
  if (row.state !== "booked") return [];
  const { site, kind } = row.job;
  const [startMs, endMs] = [row.startsAt.getTime(), row.endsAt.getTime()];
  const span = { startsAt: new Date(startMs - DAY_MS), endsAt: new Date(endMs + DAY_MS) };
  const [crew] = await crewFacts(tx, [row.crew.id], span, row.id);
  if (!crew) return [];
  const day = dayAt(startMs, site.timeZone);
  const wish = await wishFor(tx, {
    ...{ kind, minutes: 0, site, span, notBefore: row.startsAt, exceptVisitId: row.id },
    instrumentIds: row.bookings.flatMap(({ instrumentId }) => instrumentId ?? []),
    personIds: crew.people.map(({ id }) => id),
    days: { from: day, to: day },
  });
  return cautionsAt(wish, crew, { startMs, endMs }).map(shownMoments);
}
