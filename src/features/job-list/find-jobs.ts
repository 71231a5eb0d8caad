import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import { A_PAGE, type Sorting } from "../../web/sorted-list.ts";
import { type BlockedBy, standingOfJobs } from "./blocked-by.ts";
import { type ListedJob, type ListFilter, listJobRows } from "./store.ts";

/** Jobs looked at for one page when the list is filtered by what blocks them. */
const LOOKED_AT_MOST = 200;
const A_STEP = 50;

export interface FoundJobs {
  rows: (ListedJob & { open?: number })[];
  /** Where the next page starts; undefined on the last. */
  next?: { text: string; id: string };
  /** How many jobs were looked at, where not all that were could be shown. */
  lookedAt?: number;
}

/** A page of the list; one that is filtered by blockers may be short and still go on. */
export async function findJobs(
  db: Database,
  firmId: string,
  { blockedBy, ...filter }: ListFilter & { blockedBy?: BlockedBy | undefined },
  sorting: Sorting,
  now: Date,
): Promise<FoundJobs> {
  if (blockedBy === undefined) {
    const found = await inFirm(db, firmId, (tx) =>
      listJobRows(tx, filter, sorting, A_PAGE + 1, now),
    );
    const rows = await withStanding(db, firmId, found.slice(0, A_PAGE), now);
    return found.length > A_PAGE ? { rows, ...nextAfter(rows.at(-1)) } : { rows };
  }
  return lookThrough(db, firmId, { ...filter, state: "open", blockedBy }, sorting, now);
}

/** How many hold points are open is told of open jobs; of others nothing waits any more. */
async function withStanding(
  db: Database,
  firmId: string,
  rows: ListedJob[],
  now: Date,
): Promise<FoundJobs["rows"]> {
  const ids = rows.filter(({ state }) => state === "open").map(({ id }) => id);
  const standing = await standingOfJobs(db, firmId, ids, undefined, now);
  return rows.map((row) => {
    const open = standing.get(row.id)?.open;
    return open === undefined ? row : { ...row, open };
  });
}

async function lookThrough(
  db: Database,
  firmId: string,
  { blockedBy, ...filter }: ListFilter & { blockedBy: BlockedBy },
  sorting: Sorting,
  now: Date,
): Promise<FoundJobs> {
  const rows: FoundJobs["rows"] = [];
  let after = sorting.after;
  for (let lookedAt = 0; lookedAt < LOOKED_AT_MOST; ) {
    const step = await inFirm(db, firmId, (tx) =>
      listJobRows(tx, filter, { ...sorting, after }, A_STEP, now),
    );
    const ids = step.map(({ id }) => id);
    const standing = await standingOfJobs(db, firmId, ids, blockedBy, now);
    for (const row of step) {
      lookedAt += 1;
      after = { text: row.place, id: row.id };
      const job = standing.get(row.id);
      if (job?.isAsked) rows.push({ ...row, open: job.open });
      if (rows.length === A_PAGE) return { rows, next: after, lookedAt };
    }
    if (step.length < A_STEP) return { rows };
    if (lookedAt >= LOOKED_AT_MOST) return { rows, ...(after ? { next: after } : {}), lookedAt };
  }
  return { rows };
}

const nextAfter = (row: ListedJob | undefined) =>
  row ? { next: { text: row.place, id: row.id } } : {};
