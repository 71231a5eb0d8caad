// Requirement: a bag of several jobs says which they are and where each one's ledger ends, so that
// one that was left out or put in shows (product rule).
import { z } from "zod";
import { isReserved } from "../file-names/safe-name.ts";
import { type BagFault, fault } from "./bag-fault.ts";

/** Only in a bag of several jobs: what it is of, and the jobs in it. */
export const SCOPE_FILE = "data/scope.json";

const REFERENCE_MOST = 64;

/** The folder of a job's record in the bag: by its reference where that fits any system. */
export function bagFolder({ id, reference }: { id: string; reference: string }): string {
  const name = reference.toLowerCase();
  const isPlain = /^[a-z0-9][a-z0-9-]*$/.test(name) && name.length <= REFERENCE_MOST;
  return `data/jobs/${isPlain && !isReserved(name) ? name : id}`;
}

const JobInScope = z.strictObject({
  folder: z.string().regex(/^data\/jobs\/[a-z0-9-]+$/),
  head: z.string().regex(/^[0-9a-f]{64}$/),
  entries: z.int().min(0),
  id: z.guid(),
  reference: z.string(),
});

/** Content of SCOPE_FILE. */
export const BagScope = z.strictObject({
  jobs: z.array(JobInScope),
  scope: z.looseObject({ kind: z.string() }),
  title: z.string(),
});
export type BagScope = z.infer<typeof BagScope>;

/** Folders of jobs among a bag's files that the scope does not list, and the other way round. */
export function scopeFaults({ jobs }: BagScope, names: readonly string[]): BagFault[] {
  const list = SCOPE_FILE;
  const listed = new Set(jobs.map(({ folder }) => folder));
  const there = new Set<string>();
  const faults: BagFault[] = [];
  for (const name of names) {
    const folder = /^data\/jobs\/[^/]+(?=\/)/.exec(name)?.[0];
    if (folder !== undefined) there.add(folder);
    else if (name.startsWith("data/") && name !== SCOPE_FILE) {
      faults.push(fault(name, "scope-no-job"));
    }
  }
  for (const file of there)
    if (!listed.has(file)) faults.push(fault(file, "scope-unlisted", { list }));
  for (const file of listed)
    if (!there.has(file)) faults.push(fault(file, "scope-absent", { list }));
  if (listed.size !== jobs.length) faults.push(fault(SCOPE_FILE, "scope-twice"));
  return faults;
}
