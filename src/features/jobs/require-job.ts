import type { FirmTransaction } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { isJob } from "./store.ts";

/** A list of what belongs to a job is empty only where the job is there to be seen. */
export async function requireJob(tx: FirmTransaction, id: string): Promise<void> {
  if (!(await isJob(tx, id))) throw notFound("job");
}
