import { readFile } from "node:fs/promises";
import { parseArgs } from "node:util";
import type { StampReport } from "../verify/bag-stamp.ts";
import { verifyBag } from "./verify-bag.ts";
import { verifyAllLedgers } from "./verify-ledger.ts";

/** Checks an evidence bag, which takes no database, or the ledgers that lie in it. */
export async function verify(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    options: {
      firm: { type: "string" },
      certificates: { type: "string" },
      "time-stamp-certificates": { type: "string" },
    },
    allowPositionals: true,
  });
  const [what, ...more] = positionals;
  if (what === undefined || more.length > 0) {
    throw new Error(
      "Say: verify BAG [--certificates FILE] [--time-stamp-certificates FILE], or verify ledger " +
        "[--firm ID].",
    );
  }
  if (what === "ledger") return verifyAllLedgers(values.firm);
  return tell(what, values.certificates, values["time-stamp-certificates"]);
}

const contentOf = async (file: string | undefined): Promise<string | undefined> =>
  file === undefined ? undefined : readFile(file, "utf8");

async function tell(path: string, certificates?: string, stampers?: string): Promise<void> {
  const trusted = await contentOf(certificates);
  const report = await verifyBag(path, trusted, await contentOf(stampers));
  const { faults, signedBy, stamp, figures } = report;
  for (const { file, problem } of faults) console.error(`${file}: ${problem}`);
  if (faults.length > 0) throw new Error(`${path}: ${faults.length} faults.`);
  console.log(`${path} is whole: each file as listed, none missing, none added.`);
  console.log(`Ledger of ${figures.entries} entries unbroken, ${figures.verdicts} verdicts hold.`);
  if (figures.withheld > 0) {
    console.log(`Texts erased: ${figures.withheld}. The ledger keeps their salted hashes.`);
  }
  console.log(`Signed with the key whose certificate has the SHA-256 fingerprint ${signedBy}.`);
  if (trusted === undefined) {
    console.log(
      "Whose key that is, the bag alone cannot say: compare the fingerprint with the firm, or " +
        "give its certificates, got another way, with --certificates FILE.",
    );
  }
  for (const line of stamp ? stampLines(stamp) : []) console.log(line);
}

const GIVE_ROOTS =
  "compare with the service's root certificates, got another way: --time-stamp-certificates FILE.";
const TRUST = {
  given: "Its certificate leads to those given.",
  enclosed: `Its certificate leads to certs/time-stamp.pem, in the bag itself: ${GIVE_ROOTS}`,
  unknown: `Whose service that is, the bag alone cannot say: ${GIVE_ROOTS}`,
};

function stampLines({ stamp, trust, askedOf }: StampReport): string[] {
  if (stamp) {
    const at = stamp.at.toISOString();
    return [`Time stamp of ${at}, policy ${stamp.policy}, given by “${stamp.by}”.`, TRUST[trust]];
  }
  if (askedOf === undefined) return ["It has no time stamp, and none was to be given."];
  return [`It has no time stamp, although ${askedOf} was to give one: ask for the bag again.`];
}
