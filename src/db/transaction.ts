// One transaction on one pg connection, its statements sent in batches.
import type pg from "pg";
import { type Statement, sendBatch } from "./batch.ts";

type Results = Promise<pg.QueryResult[]>;

export interface Transaction {
  /** What is asked for in the same moment travels as one batch. */
  run(...statements: Statement[]): Results;
  /** Sends the last statements and the commit in the same round trip. */
  commit(...statements: Statement[]): Results;
  /** Of batches side by side the failure that began it, when this one only followed from it. */
  cause(error: unknown): Promise<unknown>;
  /** Takes back what was not committed. */
  end(): Promise<void>;
}

const BEGIN: Statement = { name: "begin", text: "BEGIN" };
const COMMIT: Statement = { name: "commit", text: "COMMIT" };

/** @param first goes before whatever else is asked */
export function transactionOn(
  client: pg.PoolClient,
  first: Statement,
  keepsPrepared: boolean,
): Transaction {
  let [started, committed] = [false, false];
  const faults: unknown[] = [];
  const send = async (statements: Statement[], isLast: boolean): Results => {
    // The first and only batch is a transaction by itself.
    const isOnly = isLast && !started;
    const opening = started ? [] : isOnly ? [first] : [BEGIN, first];
    started ||= !isOnly;
    const all = [...opening, ...statements, ...(isLast && !isOnly ? [COMMIT] : [])];
    const batch = keepsPrepared ? all : all.map(({ name: _, ...unnamed }) => unnamed);
    const results = await sendBatch(client, batch).catch((error: unknown) => {
      faults.push(error);
      throw error;
    });
    committed ||= isLast;
    return results.slice(opening.length, opening.length + statements.length);
  };
  const rollBack = (): Promise<unknown> => client.query("ROLLBACK").catch(() => undefined);
  return {
    run: sideBySide((statements) => send(statements, false)),
    commit: (...statements) => send(statements, true),
    cause: async (error) => {
      if (!isAftermath(error)) return error;
      // They settle as they like: after the roll-back all of them have.
      await rollBack();
      return faults[0];
    },
    end: async () => {
      if (started && !committed) await rollBack();
    },
  };
}

function sideBySide(send: (all: Statement[]) => Results): Transaction["run"] {
  let waiting: Statement[] = [];
  let sent: Results | undefined;
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

/** "Current transaction is aborted": the answer to every statement after the one that failed. */
const isAftermath = (error: unknown): boolean =>
  error instanceof Error && "code" in error && error.code === "25P02";
