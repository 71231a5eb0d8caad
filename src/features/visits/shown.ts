import type { VisitRow } from "./store.ts";

export function shown({ job, crew, bookings, startsAt, endsAt, createdAt, ...row }: VisitRow) {
  const { site, ...ofJob } = job;
  return {
    ...row,
    job: ofJob,
    site,
    crew,
    people: bookings.flatMap(({ person }) => person ?? []),
    instruments: bookings.flatMap(({ instrument }) => (instrument ? [taken(instrument)] : [])),
    startsAt: startsAt.toISOString(),
    endsAt: endsAt.toISOString(),
    timeZone: site.timeZone,
    state: row.state as "booked" | "cancelled",
    createdAt: createdAt.toISOString(),
  };
}

type Instrument = NonNullable<VisitRow["bookings"][number]["instrument"]>;

function taken({ id, reference, name, calibrations }: Instrument) {
  const calibrationDueOn = calibrations[0]?.dueOn.toISOString().slice(0, 10) ?? null;
  return { id, reference, name, calibrationDueOn };
}
