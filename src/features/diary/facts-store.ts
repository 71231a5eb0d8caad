// What a place in the diary is judged by, read from the database as the domain wants it.
import type { FirmTransaction } from "../../db/scope.ts";
import type { DiaryCrew, DiaryInstrument } from "../../domain/scheduling/diary-facts.ts";
import { absencesDuring } from "../absences/store.ts";
import { readWeeks, weekOf } from "../working-hours/store.ts";

interface Span {
  startsAt: Date;
  endsAt: Date;
}

const ms = ({ startsAt, endsAt }: Span) => ({
  startMs: startsAt.getTime(),
  endMs: endsAt.getTime(),
});

/**
 * Crews with their active people, and what each is taken up by during the span: visits of the crew
 * and of each of its people, and absences. All active crews with people where none are named.
 */
export async function crewFacts(
  tx: FirmTransaction,
  crewIds: readonly string[] | undefined,
  span: Span,
  exceptVisitId?: string,
): Promise<DiaryCrew[]> {
  const crews = await findCrews(tx, crewIds);
  const personIds = [...new Set(crews.flatMap(({ people }) => people.map(({ id }) => id)))];
  const visits = await visitsOf(tx, crews, personIds, span, exceptVisitId);
  const away = await absencesDuring(tx, span, personIds);
  const weeks = await readWeeks(tx);
  return crews.map(({ people, ...crew }) => ({
    ...crew,
    people: people.map(({ id, name }) => ({
      ...{ id, name, week: weekOf(weeks, id) },
      away: away
        .filter(({ personId }) => personId === id)
        .map((row) => ({ absenceId: row.id, ...ms(row) })),
    })),
    visits: visits
      .filter(({ crewId, bookings }) => {
        const isOwn = ({ personId }: { personId: string | null }) =>
          people.some(({ id }) => id === personId);
        return crewId === crew.id || bookings.some(isOwn);
      })
      .map(({ id, job, ...row }) => ({
        ...{ visitId: id, jobReference: job.reference, ...ms(row) },
        position: { latitudeDeg: job.site.latitude, longitudeDeg: job.site.longitude },
      })),
  }));
}

async function findCrews(tx: FirmTransaction, crewIds: readonly string[] | undefined) {
  const rows = await tx.crew.findMany({
    where: {
      firmId: tx.firmId,
      ...(crewIds ? { id: { in: [...crewIds] } } : { active: true }),
    },
    include: {
      members: {
        where: { person: { active: true } },
        include: { person: { select: { id: true, name: true } } },
        orderBy: { person: { name: "asc" } },
      },
    },
    orderBy: { name: "asc" },
  });
  return rows
    .map(({ id, name, members }) => ({ id, name, people: members.map(({ person }) => person) }))
    .filter(({ people }) => crewIds !== undefined || people.length > 0);
}

async function visitsOf(
  tx: FirmTransaction,
  crews: readonly { id: string }[],
  personIds: readonly string[],
  span: Span,
  exceptVisitId: string | undefined,
) {
  return tx.visit.findMany({
    where: {
      ...{ firmId: tx.firmId, state: "booked" },
      ...{ startsAt: { lt: span.endsAt }, endsAt: { gt: span.startsAt } },
      ...(exceptVisitId ? { id: { not: exceptVisitId } } : {}),
      OR: [
        { crewId: { in: crews.map(({ id }) => id) } },
        { bookings: { some: { personId: { in: [...personIds] } } } },
      ],
    },
    select: {
      ...{ id: true, crewId: true, startsAt: true, endsAt: true },
      bookings: { where: { personId: { not: null } }, select: { personId: true } },
      job: {
        select: { reference: true, site: { select: { latitude: true, longitude: true } } },
      },
    },
    orderBy: [{ startsAt: "asc" }, { id: "asc" }],
  });
}

/** Instruments with their calibration, and which visits take them during the span. */
export async function instrumentFacts(
  tx: FirmTransaction,
  ids: readonly string[],
  span: Span,
  exceptVisitId?: string,
): Promise<DiaryInstrument[]> {
  if (ids.length === 0) return [];
  const rows = await tx.instrument.findMany({
    where: { firmId: tx.firmId, id: { in: [...ids] } },
    include: {
      calibrations: { orderBy: [{ calibratedOn: "desc" }, { id: "desc" }], take: 1 },
      visitBookings: {
        where: {
          ...{ startsAt: { lt: span.endsAt }, endsAt: { gt: span.startsAt } },
          ...(exceptVisitId ? { visitId: { not: exceptVisitId } } : {}),
        },
        include: { visit: { select: { job: { select: { reference: true } } } } },
        orderBy: { startsAt: "asc" },
      },
    },
    orderBy: { reference: "asc" },
  });
  return rows.map(({ id, reference, retiredOn, calibrations: [last], visitBookings }) => ({
    ...{ id, reference, retiredOn: retiredOn && dayText(retiredOn) },
    // A failed one means that it is not in date at all, whatever an earlier one said.
    inDateTo: last?.passed ? dayText(last.dueOn) : null,
    taken: visitBookings.map(({ visitId, visit, ...row }) => ({
      ...{ visitId, jobReference: visit.job.reference, ...ms(row) },
    })),
  }));
}

const dayText = (date: Date): string => date.toISOString().slice(0, 10);
