import type { Database } from "../db/client.ts";
import { listFirmsForRuns } from "../features/firms/store.ts";
import { verifyLedgers } from "../features/ledger/verify-ledgers.ts";
import { withDatabase } from "./database.ts";

/** Replays the ledgers of all firms, or of one, and prints what is wrong; throws if anything is. */
export async function verifyAllLedgers(firmId: string | undefined): Promise<void> {
  let faults = 0;
  await withDatabase(async (db) => {
    for (const firm of await firmsOf(db, firmId)) {
      const figures = await verifyLedgers(db, firm.id, (fault) => {
        faults += 1;
        console.error(`${firm.name}: ${fault}`);
      });
      const { jobs, entries, checkpoints } = figures;
      console.log(`${firm.name}: ${jobs} jobs, ${entries} entries, ${checkpoints} checkpoints`);
    }
  });
  if (faults > 0) throw new Error(`${faults} faults. Keep the database as it is, and a backup.`);
}

async function firmsOf(db: Database, firmId: string | undefined) {
  const firms = await listFirmsForRuns(db);
  if (firmId === undefined) return firms;
  const chosen = firms.filter(({ id }) => id === firmId);
  if (chosen.length === 0) throw new Error(`There is no firm ${firmId} here.`);
  return chosen;
}
