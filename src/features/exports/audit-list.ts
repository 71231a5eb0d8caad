import type { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { sampleJobs } from "../audits/sample-jobs.ts";
import { inOrder, SampleQuery } from "../audits/schemas.ts";
import type { ExportList } from "./list.ts";

const Query = SampleQuery.strict().refine(inOrder, { path: ["to"], error: "is before the first" });

/** A sample is drawn, not kept: the same period, limit and seed give the same rows. */
export const auditSample: ExportList<z.output<typeof Query>> = {
  ...{ name: "audit-sample", operationId: "exportAuditSample", query: Query },
  summary: "Take an audit sample away",
  columns: [
    "seed",
    "lotSize",
    "sampleSize",
    "accept",
    "draw",
    "job",
    "title",
    "closedAt",
    "finding",
  ],
  async *pages({ db, firmId }, { seed, ...asked }) {
    const sample = await inFirm(db, firmId, (tx) => sampleJobs(tx, { ...asked, seed }));
    const { lotSize, plan, jobs = [] } = sample;
    yield jobs.map(({ reference, title, closedAt, findingId }, index) => [
      ...[seed, lotSize, plan?.sampleSize, plan?.accept, index + 1, reference, title],
      ...[closedAt.toISOString(), findingId !== undefined],
    ]);
  },
};
