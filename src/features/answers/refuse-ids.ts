import { Problem } from "../../errors.ts";
import type { JobRecord } from "../job-record/store.ts";
import type { NewAnswer } from "./schemas.ts";
import type { KeptRow } from "./store.ts";

export function refuseDoubledIds(answers: readonly NewAnswer[]): void {
  const seen = new Set<string>();
  for (const [index, { id }] of answers.entries()) {
    if (seen.has(id)) {
      const detail = "stands twice in this batch";
      throw new Problem("invalid-input", detail, {
        errors: [{ pointer: `/body/answers/${index}/id`, detail }],
      });
    }
    seen.add(id);
  }
}

export function refuseReusedIds(
  kept: ReadonlyMap<string, KeptRow>,
  bodies: ReadonlyMap<string, string>,
): void {
  for (const [id, row] of kept) {
    if (row.bodySha256 === bodies.get(id)) continue;
    throw new Problem(
      "id-reused",
      `An answer with the id ${id} was kept before with other content.`,
      { id },
    );
  }
}

export function refuseClosed({ job }: JobRecord): void {
  if (job.state === "open") return;
  throw new Problem("job-not-open", `${job.reference} is ${job.state}; it takes no more answers.`);
}
