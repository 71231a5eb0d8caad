import type { Database } from "../db/client.ts";
import { listFirmsForRuns } from "../features/firms/store.ts";

export interface RunFirm {
  id: string;
  name: string;
  timeZone: string;
}

/** What a run does when it fails for one firm. */
export type OnFailure = (firm: RunFirm, error: unknown) => void;

/**
 * One firm's fault must not keep the others from their notices and mails.
 *
 * @param atOnce firms that are worked for side by side
 */
export async function eachFirm(
  db: Database,
  onFailure: OnFailure,
  work: (firm: RunFirm) => Promise<void>,
  atOnce = 1,
): Promise<void> {
  const firms = (await listFirmsForRuns(db)).values();
  const takeTurns = async (): Promise<void> => {
    for (const firm of firms) {
      try {
        await work(firm);
      } catch (error) {
        onFailure(firm, error);
      }
    }
  };
  await Promise.all(Array.from({ length: atOnce }, takeTurns));
}

/** For callers that would rather stop. */
export const stopAtOnce: OnFailure = (_firm, error) => {
  throw error;
};
