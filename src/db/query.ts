import type { FirmPipeline, FirmTransaction, Statement } from "./scope.ts";

/**
 * Runs statements in one firm's transaction, whichever door it was opened by; rows per statement.
 */
export type Query = (...statements: Statement[]) => Promise<unknown[][]>;

export const pipelineQuery =
  (pipeline: FirmPipeline): Query =>
  async (...statements) =>
    (await pipeline.run(...statements)).map((result) => result.rows);

export const transactionQuery =
  (tx: FirmTransaction): Query =>
  async (...statements) => {
    const rows: unknown[][] = [];
    for (const { text, values } of statements) {
      rows.push(await tx.$queryRawUnsafe<unknown[]>(text, ...(values ?? [])));
    }
    return rows;
  };
