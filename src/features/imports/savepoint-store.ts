import type { FirmTransaction } from "../../db/scope.ts";

/** Runs `work` and takes back whatever it wrote, however it ended; its result or error is kept. */
export async function inSavepoint<T>(tx: FirmTransaction, work: () => Promise<T>): Promise<T> {
  await tx.$executeRaw`SAVEPOINT trial`;
  try {
    return await work();
  } finally {
    await tx.$executeRaw`ROLLBACK TO SAVEPOINT trial`;
    await tx.$executeRaw`RELEASE SAVEPOINT trial`;
  }
}
