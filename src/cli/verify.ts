import { readFile } from "node:fs/promises";
import { parseArgs } from "node:util";
import { verifyBag } from "./verify-bag.ts";
import { verifyAllLedgers } from "./verify-ledger.ts";

/** Checks an evidence bag, which takes no database, or the ledgers that lie in it. */
export async function verify(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    options: { firm: { type: "string" }, certificates: { type: "string" } },
    allowPositionals: true,
  });
  const [what, ...more] = positionals;
  if (what === undefined || more.length > 0) {
    throw new Error("Say: verify BAG [--certificates FILE], or verify ledger [--firm ID].");
  }
  if (what === "ledger") return verifyAllLedgers(values.firm);
  return tell(what, values.certificates);
}

async function tell(path: string, certificates: string | undefined): Promise<void> {
  const trusted = certificates === undefined ? undefined : await readFile(certificates, "utf8");
  const { faults, signedBy, figures } = await verifyBag(path, trusted);
  for (const { file, problem } of faults) console.error(`${file}: ${problem}`);
  if (faults.length > 0) throw new Error(`${path}: ${faults.length} faults.`);
  console.log(`${path} is whole: each file as listed, none missing, none added.`);
  console.log(`Ledger of ${figures.entries} entries unbroken, ${figures.verdicts} verdicts hold.`);
  console.log(`Signed with the key whose certificate has the SHA-256 fingerprint ${signedBy}.`);
  if (trusted !== undefined) return;
  console.log(
    "Whose key that is, the bag alone cannot say: compare the fingerprint with the firm, or give " +
      "its certificates, got another way, with --certificates FILE.",
  );
}
