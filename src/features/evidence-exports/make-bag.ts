// The bag of many jobs: each job's record under a folder of its own, read when its turn comes, so
// that however many there are, one is in memory at a time.
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { bagFolder, SCOPE_FILE } from "../../domain/evidence/bag-scope.ts";
import { canonicalize } from "../../domain/evidence/canonical-json.ts";
import { type NamedScope, scopeOfAccess } from "../audit-access/scope-words.ts";
import { timeStampService } from "../evidence/ask-for-stamp.ts";
import { type BagParts, bagFiles } from "../evidence/bag-files.ts";
import { recordFiles } from "../evidence/bag-payload.ts";
import { type BagFile, newSums, textFile } from "../evidence/bag-streams.ts";
import { zipBag } from "../evidence/bag-zip.ts";
import { certificatesAddress, recordSources, requirePhotos } from "../evidence/export-bag.ts";
import type { KeyRow } from "../evidence/key-store.ts";
import { sealManifest } from "../evidence/seal-manifest.ts";
import { sealRecord } from "../evidence/seal-record.ts";
import { currentKey } from "../evidence/signing-key.ts";
import { readFirm } from "../firms/store.ts";
import { type House, readHouse } from "../papers/house.ts";
import { keepExport } from "./export-folder.ts";
import { ExportScope } from "./schemas.ts";
import { jobsInScope, type ScopedJob } from "./scope-store.ts";
import type { Task } from "./task.ts";

const JOBS_A_PAGE = 100;

export interface MadeBag {
  bytes: number;
  sha256: string;
  jobsTotal: number;
  stampedAt: Date | null;
  stampProblem: string | null;
}

/** What is known of the bag while it is made. */
interface Making {
  key: KeyRow;
  /** How its papers look, the same for every job. */
  house: House;
  jobs: { folder: string; head: string; entries: number; id: string; reference: string }[];
  /** Day of the latest change to any of the records. */
  latest: string;
  stamp: Pick<MadeBag, "stampedAt" | "stampProblem">;
  /** What the auditor who asked for it may see; all that is asked for where it is undefined. */
  within: ReturnType<typeof withinOf>;
}

/** Makes the export's file. */
export async function makeBag(task: Task): Promise<MadeBag> {
  const { desk, row, lease } = task;
  const { db, config, firmId } = desk;
  const place = { db, now: desk.now, dataFolder: config.dataFolder };
  const { key, firm, house, named } = await inFirm(db, firmId, (tx) => groundOf(tx, place, row));
  const making: Making = {
    ...{ key, house, jobs: [], latest: "1970-01-01", within: withinOf(named) },
    stamp: { stampedAt: null, stampProblem: null },
  };
  const name = row.fileName.slice(0, -".zip".length);
  const service = timeStampService(config);
  const parts: BagParts = {
    key,
    readMe: {
      ...{ title: row.title, jobs: row.jobsTotal, entries: 0, ledgers: "data/jobs/*/ledger" },
      certificates: certificatesAddress(config, firmId),
    },
    payload: payload(task, making),
    info: () => ({
      "Source-Organization": firm.name,
      "External-Identifier": name,
      "External-Description": `Evidence of ${row.title}`,
      "Bagging-Date": making.latest,
      Jobs: String(making.jobs.length),
      "Evidence-Format": "evidence-bag/1",
    }),
    service,
    seal: async (manifest) => {
      const seals = await sealManifest(place, service, { firmId, key, manifest });
      making.stamp = { stampedAt: seals.stampedAt ?? null, stampProblem: seals.problem ?? null };
      return seals;
    },
  };
  const sums = newSums();
  const bag = zipBag(name, bagFiles(parts, sums), sums);
  const kept = await keepExport({ ...place, firmId, exportId: row.id }, bag, lease.workerId);
  return { ...kept, ...making.stamp, jobsTotal: making.jobs.length };
}

const groundOf = async (
  tx: FirmTransaction,
  place: Parameters<typeof currentKey>[1],
  { auditAccessId }: Task["row"],
) => ({
  named: auditAccessId ? await scopeOfAccess(tx, auditAccessId) : undefined,
  key: await currentKey(tx, place),
  firm: await readFirm(tx),
  house: await readHouse(tx),
});

const withinOf = (named: NamedScope | undefined) =>
  named && {
    ...(named.period ? { period: { ...named.period } } : {}),
    ...{ models: named.models, sites: named.sites },
  };

async function* payload(task: Task, making: Making): AsyncGenerator<BagFile> {
  const scope = ExportScope.parse(task.row.scope);
  let done = 0;
  for await (const files of oneAhead(scopedJobs(task, scope), (job) =>
    filesOf(task, job, making),
  )) {
    yield* files;
    done += 1;
    await task.beat(Math.min(done, task.row.jobsTotal));
  }
  const { title } = task.row;
  const told = making.within ? { ...scope, within: making.within } : scope;
  yield textFile(SCOPE_FILE, canonicalize({ jobs: making.jobs, scope: told, title }));
}

/** While one job's photos pass, the next one's paper is drawn: by other threads than this. */
async function* oneAhead<T, R>(
  all: AsyncIterable<T>,
  begin: (each: T) => Promise<R>,
): AsyncGenerator<R> {
  let begun: Promise<R> | undefined;
  for await (const each of all) {
    const before = await begun;
    begun = begin(each);
    // It is waited for a turn later; until then a fault of it is nobody's yet.
    begun.catch(() => undefined);
    if (before !== undefined) yield before;
  }
  if (begun) yield await begun;
}

/** As many as were counted when it was asked for: jobs that came since are in the next export. */
async function* scopedJobs(
  { desk, row }: Task,
  scope: ExportScope,
): AsyncGenerator<ScopedJob, void> {
  let after = "";
  for (let left = row.jobsTotal; left > 0; ) {
    const most = Math.min(JOBS_A_PAGE, left);
    const page = await inFirm(desk.db, desk.firmId, (tx) =>
      jobsInScope(tx, scope, { after, most }),
    );
    yield* page;
    left -= page.length;
    if (page.length < most) return;
    after = page.at(-1)?.reference ?? "";
  }
}

async function filesOf({ desk, row }: Task, job: ScopedJob, making: Making): Promise<BagFile[]> {
  const { db, config, firmId } = desk;
  const place = { db, now: desk.now, dataFolder: config.dataFolder };
  const record = await inFirm(db, firmId, async (tx) => {
    const exported = { exportId: row.id, key: making.key };
    const sealed = await sealRecord(tx, place, job.id, row.personId, exported);
    await requirePhotos(config, firmId, sealed);
    return sealed;
  });
  const { seq: entries, sha256: head, at } = record.extent;
  const folder = bagFolder(job);
  making.jobs.push({ folder, head, entries, id: job.id, reference: job.reference });
  if (at.slice(0, 10) > making.latest) making.latest = at.slice(0, 10);
  const sources = recordSources(desk, { firmId, jobId: job.id, record, house: making.house });
  const paper = sources.certificate();
  paper.catch(() => undefined);
  return recordFiles(folder, record, { ...sources, certificate: () => paper });
}
