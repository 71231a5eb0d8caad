// Every read and write happens inside one firm. The setting lasts for the transaction and row-level
// security reads it, so a query that forgets its firm finds nothing rather than everything. What an
// auditor's scope leaves out is kept from every query in the same way.
import { auditorHere, auditScope } from "./audit-scope.ts";
import type { Statement } from "./batch.ts";
import type { Database } from "./client.ts";
import type { Prisma } from "./generated/client.ts";
import { type Transaction, transactionOn } from "./transaction.ts";

export type { Statement } from "./batch.ts";

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

/** A pg connection inside one firm whose statements travel together, one round trip a batch. */
export interface FirmPipeline extends Pick<Transaction, "run" | "commit"> {
  readonly firmId: string;
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
  const transaction = transactionOn(client, first, db.keepsPrepared);
  try {
    return await work({ firmId, run: transaction.run, commit: transaction.commit });
  } catch (error) {
    throw await transaction.cause(error);
  } finally {
    await transaction.end();
    client.off("error", ignore);
    client.release();
  }
}

const ignore = (): void => undefined;

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
