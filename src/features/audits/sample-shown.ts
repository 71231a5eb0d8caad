import { sampleState } from "../../domain/sampling/sample-state.ts";
import { NOTHING, type ReadSample } from "./keep-sample.ts";
import type { DrawnJob, SampleRow } from "./sample-store.ts";

const day = (date: Date): string => date.toISOString().slice(0, 10);

export const shownSample = (row: SampleRow, counts: typeof NOTHING = NOTHING) => ({
  ...{ id: row.id, reference: row.reference, from: day(row.periodFrom), to: day(row.periodTo) },
  ...{ limit: row.qualityLimit, seed: row.seed, lotSize: row.lot.length, letter: row.letter },
  ...{ sampleSize: counts.size, accept: row.accept, looked: counts.looked, found: counts.found },
  state: sampleState({ ...counts, accept: row.accept }),
  isWithinAudit: row.auditAccessId !== null,
  ...{ keptById: row.keptById, keptByName: row.keptBy.name, keptAt: row.keptAt.toISOString() },
});

export const shownLook = ({ id, personId, person, remark, at }: DrawnJob["looks"][number]) => ({
  ...{ id, personId, personName: person.name, remark, at: at.toISOString() },
});

export const shownWhole = ({ row, jobs, counts }: ReadSample) => ({
  ...shownSample(row, counts),
  jobs: jobs.map(({ position, jobId, job, closedAt, looks, findings }) => ({
    ...{ position, jobId, reference: job.reference, title: job.title, findings },
    ...{ closedAt: closedAt.toISOString(), looks: looks.map(shownLook) },
  })),
});
