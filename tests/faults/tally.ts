// Each kind's figures: what `keep` said yes to against what the server has, looked up behind the
// service. An operation may be stored, held, or put aside in quarantine; what it says is to be
// there once and as it was kept, and what is stored has its effect once.
import pg from "pg";
import { expect } from "vitest";
import { canonicalize } from "../../src/domain/evidence/canonical-json.ts";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import { SEED } from "../support/chance.ts";

export const REPLAY = `SEED=${SEED}`;

export interface Counted {
  kept: number;
  onServer: number;
  lost: number;
  doubled: number;
  overwritten: number;
}

interface OpRow {
  op_id: string;
  body: string;
  outcome: string;
}

interface Effect {
  id: string;
  said: string;
}

/** What of an operation stays the same when its row is moved. */
const contentOf = ({ jobId, personId, wallClock, monotonicMs, payload }: TabletOp): string =>
  canonicalize({ jobId, personId, wallClock, monotonicMs, payload });

/** @param client sees every firm, to look behind the service */
export async function countOps(client: pg.Client, kept: readonly TabletOp[]): Promise<Counted> {
  const jobIds = [...new Set(kept.map(({ jobId }) => jobId))];
  const rows = await client.query<OpRow>(
    `SELECT op_id, body, outcome FROM tablet_op WHERE job_id = ANY($1::uuid[])
     UNION ALL SELECT op_id, body, 'quarantined' FROM tablet_quarantine
       WHERE (body::jsonb ->> 'jobId')::uuid = ANY($1::uuid[])`,
    [jobIds],
  );
  const effects = await readEffects(client, jobIds);
  const found = kept.map((op) => rows.rows.filter((row) => row.op_id === op.opId));
  const lost = found.filter((own) => own.length === 0).length;
  const overwritten = kept.filter((op, index) => isOverwritten(op, found[index] ?? [], effects));
  return {
    kept: kept.length,
    onServer: kept.length - lost,
    lost,
    doubled: countDoubled(kept, rows.rows, effects),
    overwritten: overwritten.length,
  };
}

async function readEffects(client: pg.Client, jobIds: string[]): Promise<Effect[]> {
  const { rows } = await client.query<{ id: string; said: unknown }>(
    `SELECT id, jsonb_build_array(item_id, subject, value, note) AS said FROM answer
       WHERE job_id = ANY($1::uuid[])
     UNION ALL SELECT id, to_jsonb(coalesce(detail, title)) FROM snag
       WHERE job_id = ANY($1::uuid[])`,
    [jobIds],
  );
  return rows.map(({ id, said }) => ({ id, said: canonicalize(said) }));
}

/** Undefined for what leaves no row of its own to compare with. */
function effectOf({ payload }: TabletOp): string | undefined {
  if (payload.kind === "snag") return canonicalize(payload.text);
  if (payload.kind !== "answer") return undefined;
  const { itemId, subject, value, note = null } = payload.answer;
  return canonicalize([itemId, subject, value, note]);
}

function isOverwritten(op: TabletOp, own: readonly OpRow[], effects: readonly Effect[]): boolean {
  if (own.some(({ body }) => contentOf(JSON.parse(body)) !== contentOf(op))) return true;
  const said = effectOf(op);
  if (said === undefined || !own.some(({ outcome }) => outcome === "stored")) return false;
  return !effects.some((effect) => effect.id === op.opId && effect.said === said);
}

/** More of one content than was kept, and effects that no stored operation stands for. */
function countDoubled(
  kept: readonly TabletOp[],
  rows: readonly OpRow[],
  effects: readonly Effect[],
): number {
  const wanted = countEach(kept.map(contentOf));
  const there = countEach(rows.map(({ body }) => contentOf(JSON.parse(body))));
  // What was written although `keep` could not say so any more is there once as well.
  const extra = [...there].map(([content, many]) => many - (wanted.get(content) ?? 1));
  const stored = rows.filter(({ outcome }) => outcome === "stored").map((row) => row.op_id);
  const own = new Set([...stored, ...kept.map(({ opId }) => opId)]);
  const orphans = effects.filter(({ id }) => !own.has(id)).length;
  return extra.reduce((sum, many) => sum + Math.max(0, many), orphans);
}

function countEach(contents: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const content of contents) counts.set(content, (counts.get(content) ?? 0) + 1);
  return counts;
}

/** A kind's figures so far; a round that does not hold fails at once, with the way to repeat it. */
export class Tally {
  readonly #client: pg.Client;
  #sum: Counted = { kept: 0, onServer: 0, lost: 0, doubled: 0, overwritten: 0 };

  private constructor(client: pg.Client) {
    this.#client = client;
  }

  /** @param ownerUrl the address of one who sees every firm */
  static async of(ownerUrl: string): Promise<Tally> {
    const client = new pg.Client({ connectionString: ownerUrl });
    await client.connect();
    return new Tally(client);
  }

  get client(): pg.Client {
    return this.#client;
  }

  async add(kept: readonly TabletOp[], replay = REPLAY): Promise<void> {
    const counted = await countOps(this.#client, kept);
    for (const figure of FIGURES) this.#sum[figure] += counted[figure];
    const whole = { kept: kept.length, onServer: kept.length };
    expect(counted, replay).toEqual({ ...whole, lost: 0, doubled: 0, overwritten: 0 });
  }

  /** What was added up begins anew. */
  tell(kind: string, rounds: number, more: Record<string, number> = {}): void {
    const { kept, onServer, lost, doubled, overwritten } = this.#sum;
    const main = { rounds, kept, "on the server": onServer, lost, doubled, overwritten };
    tell(kind, main, more);
    this.#sum = { kept: 0, onServer: 0, lost: 0, doubled: 0, overwritten: 0 };
  }

  close = (): Promise<void> => this.#client.end();
}

/** One line for whoever runs the long share. */
export function tell(
  kind: string,
  main: Record<string, number>,
  more: Record<string, number>,
): void {
  const beside = Object.keys(more).length > 0 ? `; ${inWords(more)}` : "";
  process.stdout.write(`${kind}: ${inWords(main)}${beside} (${REPLAY})\n`);
}

const FIGURES = ["kept", "onServer", "lost", "doubled", "overwritten"] as const;

const inWords = (figures: Record<string, number>): string =>
  Object.entries(figures)
    .map(([what, count]) => `${count} ${what}`)
    .join(", ");
