import { readFileSync, statSync } from "node:fs";
import { parseArgs } from "node:util";
import { inFirm } from "../db/scope.ts";
import { Problem } from "../errors.ts";
import { listFirmsForRuns } from "../features/firms/store.ts";
import { takeBounce } from "../features/mail/take-bounce.ts";
import { withDatabase } from "./database.ts";

const BYTES_MOST = 1024 * 1024;

/** Takes a delivery report from a file, for whichever firm wrote the mail it is about. */
export async function takeMail(args: string[]): Promise<void> {
  const { positionals } = parseArgs({ args, allowPositionals: true });
  const [verb, file] = positionals;
  if (verb !== "bounce" || file === undefined) {
    throw new Error("Say: mail bounce FILE, a delivery report as it came, with its header.");
  }
  if (statSync(file).size > BYTES_MOST) throw new Error(`${file} has more than 1 MB.`);
  const raw = readFileSync(file, "utf8");
  await withDatabase(async (db) => {
    let unknown: unknown;
    for (const firm of await listFirmsForRuns(db)) {
      try {
        const outcome = await inFirm(db, firm.id, (tx) => takeBounce(tx, raw, new Date()));
        const { mailId, recipient, action, state, addressFailing } = outcome;
        console.log(`${firm.name}: mail ${mailId} to ${recipient}: ${action}, now ${state}`);
        if (addressFailing) console.log("Nothing more goes to the address until it is mended.");
        return;
      } catch (error) {
        if (!(error instanceof Problem) || error.code !== "not-found") throw error;
        unknown = error;
      }
    }
    throw unknown ?? new Error("There is no firm here.");
  });
}
