// The ledgers of a firm, replayed from the first entry on and compared with every head that was
// written down elsewhere: in close-outs and checkpoints. Page by page, whatever their number.
import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import { CheckpointReplay, type Head } from "../../domain/evidence/checkpoint.ts";
import { ChainReplay } from "../../domain/evidence/ledger-chain.ts";
import { saltedPaths, saltedSha256 } from "../../domain/evidence/salted-texts.ts";
import { replayCheckpoints } from "./make-checkpoint.ts";
import {
  type CheckedEntry,
  type CheckedJob,
  entriesAfter,
  headsAtCloseOuts,
  jobsAfter,
} from "./verify-store.ts";

const JOBS_A_PAGE = 200;
const ENTRIES_A_PAGE = 500;

export interface LedgerFigures {
  jobs: number;
  entries: number;
  checkpoints: number;
}

/** Tells every fault in a sentence that names job and entry. */
export async function verifyLedgers(
  db: Database,
  firmId: string,
  tell: (fault: string) => void,
): Promise<LedgerFigures> {
  const figures: LedgerFigures = { jobs: 0, entries: 0, checkpoints: 0 };
  const checkpoints = new CheckpointReplay();
  const broken = await inFirm(db, firmId, (tx) => replayCheckpoints(tx, checkpoints));
  if (broken) tell(broken);
  figures.checkpoints = checkpoints.length;
  const unseen = new Map(checkpoints.heads);
  let after: string | undefined;
  for (;;) {
    const jobs = await inFirm(db, firmId, (tx) => jobsAfter(tx, after, JOBS_A_PAGE));
    for (const job of jobs) {
      const noted = unseen.get(job.id);
      unseen.delete(job.id);
      figures.jobs += 1;
      figures.entries += await verifyJob(db, firmId, { job, noted }, tell);
    }
    after = jobs.at(-1)?.id;
    if (jobs.length < JOBS_A_PAGE) break;
  }
  for (const { job } of unseen.values()) tell(`Job ${job} is in a checkpoint and no longer there.`);
  return figures;
}

interface Checked {
  job: CheckedJob;
  noted: Head | undefined;
}

/** @returns how many entries were read */
async function verifyJob(
  db: Database,
  firmId: string,
  { job, noted }: Checked,
  tell: (fault: string) => void,
): Promise<number> {
  const expected = new Map<number, { sha256: string; where: string }>();
  const closeOuts = await inFirm(db, firmId, (tx) => headsAtCloseOuts(tx, job.id));
  for (const { ledgerSeq, ledgerSha256: sha256 } of closeOuts) {
    expected.set(ledgerSeq, { sha256, where: "its close-out" });
  }
  if (noted) expected.set(noted.seq, { sha256: noted.sha256, where: "a checkpoint" });
  const replay = new ChainReplay();
  for (;;) {
    const page = await inFirm(db, firmId, (tx) =>
      entriesAfter(tx, job.id, replay.length, ENTRIES_A_PAGE),
    );
    for (const entry of page) {
      const problem = entryProblem(replay, entry, job, expected.get(replay.length + 1));
      if (!problem) continue;
      tell(`${job.reference}: ${problem}`);
      return replay.length + 1;
    }
    if (page.length < ENTRIES_A_PAGE) break;
  }
  const missing = [...expected.keys()].find((seq) => seq > replay.length);
  if (missing !== undefined) {
    const { where } = expected.get(missing) ?? { where: "" };
    tell(`${job.reference}: entry ${missing} is missing, which ${where} names.`);
  }
  return replay.length;
}

function entryProblem(
  replay: ChainReplay,
  entry: CheckedEntry,
  job: CheckedJob,
  expected: { sha256: string; where: string } | undefined,
): string | undefined {
  const problem = replay.take(entry);
  if (problem) return problem;
  const { kind, at, previous, sha256 } = entry;
  const fields = JSON.parse(entry.text);
  if (fields.job !== job.id) return `Entry ${entry.seq}: it belongs to another job.`;
  if (fields.kind !== kind || fields.at !== at || fields.previous !== previous) {
    return `Entry ${entry.seq}: its columns say something else than its text.`;
  }
  const wrong = textProblem(entry, fields.body);
  if (wrong) return wrong;
  if (!expected || expected.sha256 === sha256) return undefined;
  const named = `${expected.where} names ${expected.sha256}`;
  return `Entry ${entry.seq}: its hash is ${sha256}, where ${named}.`;
}

/** An erased text is kept as an empty row: one without a row was taken away another way. */
function textProblem(
  { seq, texts }: CheckedEntry,
  body: Parameters<typeof saltedPaths>[0],
): string | undefined {
  const named = saltedPaths(body);
  for (const { path, sha256 } of named) {
    const kept = texts.find((one) => one.path === path);
    if (!kept) return `Entry ${seq}: the text ${path}, which it names by its hash, is missing.`;
    const { salt, text } = kept;
    if (salt === null || text === null || saltedSha256({ salt, text }) === sha256) continue;
    return `Entry ${seq}: the text ${path} is not the one that it names by its hash.`;
  }
  const extra = texts.find(({ path }) => !named.some((one) => one.path === path));
  return extra && `Entry ${seq}: a text ${extra.path} is kept that it does not name.`;
}
