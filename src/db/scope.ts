// Every read and write happens inside one firm. The setting lasts for the transaction and row-level
// security reads it, so a query that forgets its firm finds nothing rather than everything. What an
// auditor's scope leaves out is kept from every query in the same way.
import type pg from "pg";
import { auditorHere, auditScope } from "./audit-scope.ts";
import { sendBatch } from "./batch.ts";
import type { Database } from "./client.ts";
import type { Prisma } from "./generated/client.ts";

/** A Prisma transaction inside one firm. */
export type FirmTransaction = Prisma.TransactionClient & { readonly firmId: string };

const TRANSACTION_MS = 30_000;

export async function inFirm<T>(
  db: Database,
  firmId: string,
  work: (tx: FirmTransaction) => Promise<T>,
  timeoutMs = TRANSACTION_MS,
): Promise<T> {
  const { text, values } = openingOf(firmId);
  return db.prisma.$transaction(
    async (tx) => {
      await tx.$executeRawUnsafe(text, ...values);
      // Defined, not assigned: an assignment would go to the client that all of them share.
      return work(Object.create(tx, { firmId: { value: firmId } }) as FirmTransaction);
    },
    { maxWait: 10_000, timeout: timeoutMs },
  );
}

/** Who is at work where; the database writes that beside what it keeps of a change. */
export interface Actor {
  firmId: string;
  personId: string;
}

/** `inFirm` in somebody's name: for whatever edits what is kept with its changes. */
export async function inFirmAs<T>(
  db: Database,
  { firmId, personId }: Actor,
  work: (tx: FirmTransaction) => Promise<T>,
  timeoutMs = TRANSACTION_MS,
): Promise<T> {
  return inFirm(
    db,
    firmId,
    async (tx) => {
      await tx.$executeRaw`SELECT set_config('app.person_id', ${personId}, true)`;
      return work(tx);
    },
    timeoutMs,
  );
}

/** Where a list may be read: the replica where there is one that keeps up, else the one server. */
export const forReading = (db: Database): Database => (db.replica?.isFit() ? db.replica.db : db);

/** A statement for `inFirmPipelined`; a name makes it prepared once per connection. */
export interface Statement {
  name?: string;
  text: string;
  values?: unknown[];
}

/** A pg connection inside one firm whose statements travel together, one round trip a batch. */
export interface FirmPipeline {
  readonly firmId: string;
  run(...statements: Statement[]): Promise<pg.QueryResult[]>;
  /** Sends the last statements and the commit in the same round trip. */
  commit(...statements: Statement[]): Promise<pg.QueryResult[]>;
}

/** Runs `work`; what it did not commit is rolled back. */
export async function inFirmPipelined<T>(
  db: Database,
  firmId: string,
  work: (pipeline: FirmPipeline) => Promise<T>,
): Promise<T> {
  const first = openingOf(firmId);
  const client = await db.pool.connect();
  // A connection that dies under way tells its queries, and whoever listens, or ends the process.
  client.on("error", ignore);
  let started = false;
  let committed = false;
  const faults: unknown[] = [];
  const send = async (statements: Statement[], isLast: boolean): Promise<pg.QueryResult[]> => {
    // The first and only batch is a transaction by itself.
    const isOnly = isLast && !started;
    const opening = started ? [] : isOnly ? [first] : [BEGIN, first];
    started ||= !isOnly;
    const all = [...opening, ...statements, ...(isLast && !isOnly ? [COMMIT] : [])];
    const batch = db.keepsPrepared ? all : all.map(({ name: _, ...unnamed }) => unnamed);
    try {
      const results = await sendBatch(client, batch);
      return results.slice(opening.length, opening.length + statements.length);
    } catch (error) {
      faults.push(error);
      throw error;
    }
  };
  try {
    return await work({
      firmId,
      run: sideBySide((statements) => send(statements, false)),
      commit: async (...statements) => {
        const results = await send(statements, true);
        committed = true;
        return results;
      },
    });
  } catch (error) {
    throw isAftermath(error) ? await firstOf(faults, client) : error;
  } finally {
    if (started && !committed) await client.query("ROLLBACK").catch(ignore);
    client.off("error", ignore);
    client.release();
  }
}

/** What is asked for in the same moment travels as one batch. */
function sideBySide(send: (all: Statement[]) => Promise<pg.QueryResult[]>): FirmPipeline["run"] {
  let waiting: Statement[] = [];
  let sent: Promise<pg.QueryResult[]> | undefined;
  return async (...statements) => {
    const from = waiting.length;
    waiting.push(...statements);
    sent ??= Promise.resolve().then(() => {
      const all = waiting;
      [waiting, sent] = [[], undefined];
      return send(all);
    });
    return (await sent).slice(from, from + statements.length);
  };
}

/** Batches sent side by side settle as they like: after the roll-back all of them have. */
async function firstOf(faults: readonly unknown[], client: pg.PoolClient): Promise<unknown> {
  await client.query("ROLLBACK").catch(ignore);
  return faults[0];
}

const BEGIN: Statement = { name: "begin", text: "BEGIN" };
const COMMIT: Statement = { name: "commit", text: "COMMIT" };
const ignore = (): void => undefined;

/** "Current transaction is aborted": the answer to every statement after the one that failed. */
const isAftermath = (error: unknown): boolean =>
  error instanceof Error && "code" in error && error.code === "25P02";

/** Sets the firm, and what an auditor reads within. */
function openingOf(firmId: string): Required<Statement> {
  const auditorId = auditorHere();
  if (auditorId !== undefined) {
    const text = "SELECT read_as_auditor($1::uuid, $2::uuid)";
    return { name: "read_as_auditor", text, values: [firmId, auditorId] };
  }
  const scope = auditScope();
  if (scope === undefined) {
    const text = "SELECT set_config('app.firm_id', $1, true)";
    return { name: "set_firm", text, values: [firmId] };
  }
  const text = `SELECT set_config('app.firm_id', $1, true), set_config('app.audit_scope', $2, true),
    set_config('max_parallel_workers_per_gather', '0', true)`;
  return { name: "set_firm_and_scope", text, values: [firmId, scope] };
}
