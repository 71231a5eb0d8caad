import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { readSample } from "../audits/keep-sample.ts";
import { shownWhole } from "../audits/sample-shown.ts";
import { findSample, listSamples } from "../audits/sample-store.ts";
import type { ExportAsk, ExportList } from "./list.ts";

const Query = z.strictObject({
  sampleId: z.guid().optional().describe("one sample alone; all of them where none is named"),
});
const SAMPLES_A_PAGE = 20;

export const keptAuditSample: ExportList<z.output<typeof Query>> = {
  ...{ name: "kept-audit-sample", operationId: "exportKeptAuditSample", query: Query },
  summary: "Take the jobs of an audit sample that was kept away, with what was seen",
  columns: [
    ...["sample", "from", "to", "limit", "seed", "lotSize", "letter", "accept", "keptBy", "keptAt"],
    ...["draw", "job", "title", "closedAt", "lookedBy", "lookedAt", "remark", "findings"],
  ],
  async *pages(ask, { sampleId }) {
    if (sampleId !== undefined) return yield await rowsOf(ask, sampleId);
    for (let before: string | undefined; ; ) {
      const page = { before, most: SAMPLES_A_PAGE };
      const samples = await inFirm(ask.db, ask.firmId, (tx) => listSamples(tx, page));
      for (const { id } of samples) yield await rowsOf(ask, id);
      before = samples.at(-1)?.id;
      if (samples.length < SAMPLES_A_PAGE) return;
    }
  },
};

async function rowsOf({ db, firmId }: ExportAsk, sampleId: string) {
  // A sample that is not there has no rows, as any filter that nothing matches.
  const found = await inFirm(db, firmId, async (tx) =>
    (await findSample(tx, sampleId)) ? readSample(tx, sampleId) : undefined,
  );
  if (!found) return [];
  const sample = shownWhole(found);
  const { reference, from, to, limit, seed, lotSize, letter, accept } = sample;
  return sample.jobs.map(({ looks: [look], findings, ...job }) => [
    ...[reference, from, to, limit, seed, lotSize, letter, accept],
    ...[sample.keptByName, sample.keptAt, job.position, job.reference, job.title, job.closedAt],
    ...[look?.personName, look?.at, look?.remark],
    findings.map((finding) => finding.reference).join(" "),
  ]);
}
