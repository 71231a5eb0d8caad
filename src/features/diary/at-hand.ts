// What somebody has in hand on the diary's page: a job to place, a visit to move, a slip to undo.
import type { FirmTransaction } from "../../db/scope.ts";
import { localTime } from "../../domain/dates/zone-time.ts";
import { Problem } from "../../errors.ts";
import { findJob } from "../jobs/store.ts";
import { findVisit, type VisitRow } from "../visits/store.ts";
import { suggestFirstFree } from "./first-free.ts";
import type { DiaryPageQuery } from "./page-address.ts";
import { FirstFreeQuery } from "./schemas.ts";

const SUGGESTIONS_MOST = 6;

/** The job with the first places it fits; without any where it is closed or called off. */
export async function chosenJob(tx: FirmTransaction, id: string, monday: string, now: Date) {
  const job = await findJob(tx, id);
  if (!job) return undefined;
  const { reference, title, site } = job;
  const today = now.toISOString().slice(0, 10);
  const from = monday > today ? monday : today;
  const free = await suggestFirstFree(
    tx,
    id,
    FirstFreeQuery.parse({ from, most: SUGGESTIONS_MOST }),
    now,
  ).catch((error: unknown) => {
    if (error instanceof Problem) return undefined;
    throw error;
  });
  const [first] = free?.suggestions ?? [];
  return {
    ...{ id, reference, title, place: `${site.addressLine}, ${site.locality}` },
    timeZone: site.timeZone,
    minutes: free?.duration.minutes,
    suggestions: free?.suggestions ?? [],
    isOpen: free !== undefined,
    typed: first && { crewId: first.crew.id, day: first.day, from: first.from, to: first.to },
  };
}

/** The visit with its hours as a form has them, by the clocks at the site. */
export async function chosenVisit(tx: FirmTransaction, id: string) {
  const visit = await findVisit(tx, id);
  if (!visit || visit.state === "cancelled") return undefined;
  const { job, version, note, bookings } = visit;
  return {
    ...{ id, version, note, jobId: visit.jobId, reference: job.reference, title: job.title },
    place: `${job.site.addressLine}, ${job.site.locality}`,
    timeZone: job.site.timeZone,
    people: bookings.flatMap(({ person }) => person?.name ?? []).join(", "),
    instruments: bookings.flatMap(({ instrument }) => instrument?.reference ?? []).join(", "),
    typed: { crewId: visit.crewId, version: String(version), ...hoursOf(visit, visit) },
  };
}

function hoursOf({ job }: VisitRow, { startsAt, endsAt }: { startsAt: Date; endsAt: Date }) {
  const start = localTime(startsAt.toISOString(), job.site.timeZone);
  const end = localTime(endsAt.toISOString(), job.site.timeZone);
  return { day: start.slice(0, 10), from: start.slice(11, 16), to: end.slice(11, 16) };
}

/** A visit that was called off, with the fields of the form that books it again. */
export async function calledOffVisit(tx: FirmTransaction, id: string, wasTaken: string) {
  const visit = await findVisit(tx, id);
  return visit?.state === "cancelled" ? asItWas(visit, wasTaken) : undefined;
}

function asItWas(visit: VisitRow, wasTaken: string) {
  const { jobId, crewId, note, job } = visit;
  const instrumentIds = wasTaken.split(",").filter((one) => one !== "");
  return { reference: job.reference, jobId, crewId, note, instrumentIds, ...hoursOf(visit, visit) };
}

/** What was just done, with what takes it back. */
export async function undoOf(tx: FirmTransaction, query: DiaryPageQuery) {
  const { placed, moved, calledOff, was = "", wasCrew, wasTaken = "" } = query;
  const id = placed ?? moved ?? calledOff;
  const visit = id === undefined ? null : await findVisit(tx, id);
  if (!visit) return undefined;
  const { reference } = visit.job;
  if (placed) return { placed: true, id, reference };
  if (calledOff) return { calledOff: true, id, ...asItWas(visit, wasTaken) };
  const [startsAt, endsAt] = was.split("/").map((text) => new Date(text));
  if (!startsAt || !endsAt || Number.isNaN(startsAt.getTime() + endsAt.getTime())) return undefined;
  const before = hoursOf(visit, { startsAt, endsAt });
  return { moved: true, id, version: visit.version, reference, crewId: wasCrew, ...before };
}
