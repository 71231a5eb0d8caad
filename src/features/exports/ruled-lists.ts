// Lists of which more than their tables decide: the rules say how an instrument stands and what
// blocks a job, and days are those of the site's calendar.
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { CsvCell } from "../../web/csv.ts";
import { typedText } from "../../web/fields.ts";
import { readFirm } from "../firms/store.ts";
import { listStanding } from "../instruments/list-instruments.ts";
import { sortedIds } from "../instruments/page-store.ts";
import { InstrumentQuery } from "../instruments/schemas.ts";
import { BLOCKED_BY } from "../job-list/blocked-by.ts";
import { findJobs } from "../job-list/find-jobs.ts";
import { JOB_STATES, JobQuery } from "../jobs/schemas.ts";
import { VisitQuery } from "../visits/schemas.ts";
import { shown as shownVisit } from "../visits/shown.ts";
import { jobsVisitedOn, listVisits } from "../visits/store.ts";
import { A_PAGE, type ExportAsk, type ExportList } from "./list.ts";
import { JOBS } from "./list-store.ts";
import { SORTED, sqlPages } from "./lists.ts";

const PAGING = { limit: true, cursor: true } as const;
const JobFilter = JobQuery.omit(PAGING).extend({
  ...SORTED,
  state: z.enum([...JOB_STATES, "all"]).optional(),
  q: z.string().trim().max(100).optional().describe("part of title, names or address"),
  blockedBy: z.enum(BLOCKED_BY).optional().describe("open jobs that this blocks"),
});

export const jobs: ExportList<z.output<typeof JobFilter>> = {
  ...{ name: "jobs", operationId: "exportJobs", summary: "Take the jobs away" },
  query: JobFilter,
  columns: Object.keys(JOBS.columns),
  async *pages(ask, { state, day, blockedBy, ...filter }) {
    const asked = { ...filter, ...(state === "all" ? {} : { state }) };
    if (blockedBy !== undefined) {
      for await (const ids of blocked(ask, { ...filter, blockedBy })) {
        yield* sqlPages(ask, JOBS, asked, ids);
      }
      return;
    }
    if (day === undefined) return yield* sqlPages(ask, JOBS, asked);
    const { crewId } = filter;
    const ids = await inFirm(ask.db, ask.firmId, (tx) => jobsVisitedOn(tx, day, crewId));
    yield* sqlPages(ask, JOBS, asked, ids);
  },
};

/** Ids of the jobs that the page lists under the same filter. */
async function* blocked(
  { db, firmId, now }: ExportAsk,
  { blockedBy, kind, crewId, q }: z.output<typeof JobFilter>,
): AsyncGenerator<string[]> {
  const filter = { state: "open", kind, crewId, text: q, blockedBy };
  for (let after: { text: string; id: string } | undefined; ; ) {
    const sorting = { column: "opened", descending: true, after };
    const found = await findJobs(db, firmId, filter, sorting, now);
    yield found.rows.map(({ id }) => id);
    after = found.next;
    if (!after) return;
  }
}

const InstrumentFilter = InstrumentQuery.omit(PAGING).extend({
  ...SORTED,
  text: typedText(120).optional().describe("part of name, reference or serial"),
});
const INSTRUMENTS_MOST = 100_000;

export const instruments: ExportList<z.output<typeof InstrumentFilter>> = {
  ...{ name: "instruments", operationId: "exportInstruments" },
  summary: "Take the instruments away, with their calibrations and whether they are fit now",
  query: InstrumentFilter,
  columns: [
    ...["reference", "name", "instrumentClass", "serial", "intervalMonths", "intervalCycles"],
    ...["accuracyPercentOfReading", "accuracyPercentOfRange", "accuracyPercentOfSetting"],
    ...["accuracyDigits", "rangeMax", "rangeUnit", "resolutionStep", "resolutionUnit"],
    ...["torqueToolType", "torqueToolClass", "lastCalibratedOn", "dueOn", "fitNow", "whyNot"],
    ...["retiredOn"],
  ],
  async *pages({ db, firmId, now }, { text, ...filter }) {
    const { retired, instrumentClass, dueBefore } = filter;
    const ids = await inFirm(db, firmId, async (tx) => {
      if (text === undefined) return undefined;
      const sorting = { column: "reference", descending: false };
      const wish = { text, retired, instrumentClass, dueBefore, sorting, most: INSTRUMENTS_MOST };
      return (await sortedIds(tx, wish)).map(({ id }) => id);
    });
    for (let after: string | undefined; ; ) {
      const rows = await inFirm(db, firmId, async (tx) => {
        const { timeZone } = await readFirm(tx);
        const page = { ...(ids ? { ids } : {}), ...(after ? { after } : {}), most: A_PAGE };
        return listStanding(tx, { ...filter, ...page }, { now, timeZone });
      });
      yield rows.map(instrumentCells);
      after = rows.at(-1)?.id;
      if (rows.length < A_PAGE) return;
    }
  },
};

type Standing = Awaited<ReturnType<typeof listStanding>>[number];

const instrumentCells = (row: Standing): CsvCell[] => [
  ...[row.reference, row.name, row.instrumentClass, row.serial],
  ...[row.intervalMonths, row.intervalCycles],
  ...["percentOfReading", "percentOfRange", "percentOfSetting"].map((p) => row.accuracy?.[p]),
  ...[row.accuracy?.digits, row.rangeMax?.value, row.rangeMax?.unit],
  ...[row.resolution?.step, row.resolution?.unit, row.torqueTool?.type, row.torqueTool?.class],
  ...[row.calibratedOn, row.dueOn, row.fitNow, row.reason?.sentence, row.retiredOn],
];

const VisitFilter = VisitQuery.omit(PAGING);

export const visits: ExportList<z.output<typeof VisitFilter>> = {
  ...{ name: "visits", operationId: "exportVisits" },
  summary: "Take the visits away, in the order of the diary",
  query: VisitFilter,
  columns: [
    ...["job", "kind", "title", "site", "addressLine", "locality", "timeZone", "startsAt"],
    ...["endsAt", "crew", "people", "instruments", "state", "note"],
  ],
  async *pages({ db, firmId }, { day, ...filter }) {
    const days = day === undefined ? {} : { from: day, to: day };
    for (let after: { startsAt: Date; id: string } | undefined; ; ) {
      const asked = { ...filter, ...days, ...(after ? { after } : {}), most: A_PAGE };
      const rows = await inFirm(db, firmId, (tx) => listVisits(tx, asked));
      yield rows.map((row) => visitCells(shownVisit(row)));
      const last = rows.at(-1);
      if (!last || rows.length < A_PAGE) return;
      after = { startsAt: last.startsAt, id: last.id };
    }
  },
};

const visitCells = (visit: ReturnType<typeof shownVisit>): CsvCell[] => [
  ...[visit.job.reference, visit.job.kind, visit.job.title, visit.site.reference],
  ...[visit.site.addressLine, visit.site.locality, visit.timeZone, visit.startsAt, visit.endsAt],
  ...[visit.crew.name, visit.people.map(({ name }) => name).join(", ")],
  ...[visit.instruments.map(({ reference }) => reference).join(", "), visit.state, visit.note],
];
