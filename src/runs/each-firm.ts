import type { Database } from "../db/client.ts";
import { listFirmsForRuns } from "../features/firms/store.ts";

export interface RunFirm {
  id: string;
  name: string;
  timeZone: string;
}

/** What a run does when it fails for one firm. */
export type OnFailure = (firm: RunFirm, error: unknown) => void;

/** One firm's fault must not keep the others from their notices and mails. */
export async function eachFirm(
  db: Database,
  onFailure: OnFailure,
  work: (firm: RunFirm) => Promise<void>,
): Promise<void> {
  for (const firm of await listFirmsForRuns(db)) {
    try {
      await work(firm);
    } catch (error) {
      onFailure(firm, error);
    }
  }
}

/** For callers that would rather stop. */
export const stopAtOnce: OnFailure = (_firm, error) => {
  throw error;
};
