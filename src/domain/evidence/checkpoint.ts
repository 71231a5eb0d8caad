// Requirement: cutting off or rewriting the end of a job's ledger shows, even with all its hashes
// made anew (product rule): once a day all heads of a firm go into one hash, and each checkpoint
// holds the hash of the one before. Source: FIPS 180-4, RFC 8785; the chain is a product rule.
import { canonicalize, parseCanonical } from "./canonical-json.ts";
import { sha256HexSync, utf8 } from "./sha256.ts";

/** Where a job's ledger ends: its job's UUID in lower case, the last entry's place and hash. */
export type Head = { job: string; seq: number; sha256: string };

/** What the first checkpoint of a firm names as the one before it. */
export const NO_CHECKPOINT = "0".repeat(64);

export type CheckpointFields = {
  /** RFC 3339 in UTC. */
  at: string;
  /** Heads that moved since the checkpoint before, by job. */
  changed: readonly Head[];
  /** Plain date by the firm's calendar. */
  day: string;
  firm: string;
  /** `headsSha256` of all heads. */
  heads: string;
  /** How many heads there are. */
  jobs: number;
  /** 1 for a firm's first checkpoint, then gapless. */
  number: number;
  previous: string;
};

export type StoredCheckpoint = { number: number; day: string; text: string; sha256: string };

/**
 * SHA-256 of all heads in canonical order: one line "job seq sha256" each, by job, line feed after
 * every line, in UTF-8.
 */
export function headsSha256(heads: Iterable<Head>): string {
  const lines = Array.from(heads, ({ job, seq, sha256 }) => `${job} ${seq} ${sha256}\n`);
  return sha256HexSync(utf8(lines.sort().join("")));
}

/** The checkpoint after `before` (left out for the first): its canonical text and its hash. */
export function makeCheckpoint(
  fields: Pick<CheckpointFields, "at" | "day" | "firm">,
  heads: readonly Head[],
  before: { replay: CheckpointReplay },
): { number: number; jobs: number; text: string; previous: string; sha256: string } {
  const { replay } = before;
  const changed = heads
    .filter(({ job, sha256 }) => replay.heads.get(job)?.sha256 !== sha256)
    .sort((a, b) => (a.job < b.job ? -1 : 1));
  const number = replay.length + 1;
  const jobs = heads.length;
  const previous = replay.last;
  const text = canonicalize({
    ...fields,
    changed,
    heads: headsSha256(heads),
    jobs,
    number,
    previous,
  });
  return { number, jobs, text, previous, sha256: sha256HexSync(utf8(text)) };
}

/** Replays a firm's checkpoints in their order, and knows all heads as of the last one. */
export class CheckpointReplay {
  readonly heads = new Map<string, Head>();
  last = NO_CHECKPOINT;
  length = 0;

  /** What is wrong with the next checkpoint, in a sentence; undefined if nothing. */
  take(stored: StoredCheckpoint): string | undefined {
    const number = this.length + 1;
    const start = `Checkpoint ${number} (${stored.day}):`;
    if (sha256HexSync(utf8(stored.text)) !== stored.sha256) {
      return `${start} its text does not have the SHA-256 stored with it.`;
    }
    const parsed = parseCanonical(stored.text);
    if (!parsed.ok) return `${start} its text is not canonical JSON (RFC 8785).`;
    const fields = parsed.value as CheckpointFields;
    if (fields.number !== number || stored.number !== number || fields.day !== stored.day) {
      return `${start} its text says it is number ${fields.number} of ${fields.day}.`;
    }
    if (fields.previous !== this.last) return `${start} it does not follow from the one before it.`;
    for (const head of fields.changed) this.heads.set(head.job, head);
    if (fields.jobs !== this.heads.size || fields.heads !== headsSha256(this.heads.values())) {
      return `${start} its heads do not have the hash it states.`;
    }
    this.last = stored.sha256;
    this.length = number;
    return undefined;
  }
}
