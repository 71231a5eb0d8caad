import { stat } from "node:fs/promises";
import { buffer } from "node:stream/consumers";
import { SIGNATURE, SIGNED_MANIFEST } from "../domain/evidence/bag-manifest.ts";
import type { BagFault } from "../domain/evidence/recheck-verdicts.ts";
import { fingerprintsOf } from "../verify/certificates.ts";
import { checkDetached } from "../verify/cms-signature.ts";
import { openFolder } from "./verify-folder.ts";
import { integrityFaults } from "./verify-integrity.ts";
import { checkRecords, type RecordFigures } from "./verify-records.ts";
import { type BagSource, readText } from "./verify-source.ts";
import { readStamp, type StampReport } from "./verify-time-stamp.ts";
import { openZip } from "./verify-zip.ts";

export interface BagReport {
  faults: BagFault[];
  /** SHA-256 of the certificate that signed; left out where no signature could be read. */
  signedBy?: string;
  /** Left out where what it stamps does not hold. */
  stamp?: StampReport;
  figures: RecordFigures;
}

/**
 * Checks an evidence bag: a ZIP file or a folder.
 * @param trusted the firm's certificates as PEM, got another way; without them the bag vouches for
 *   its key itself
 * @param roots those of the time-stamp service, likewise
 */
export async function verifyBag(
  path: string,
  trusted?: string,
  roots?: string,
): Promise<BagReport> {
  const source = (await stat(path)).isDirectory() ? await openFolder(path) : await openZip(path);
  const faults = await integrityFaults(source);
  const signed = await signature(source, trusted);
  faults.push(...signed.faults);
  const { signedBy } = signed;
  const stamp = faults.length > 0 ? undefined : await readStamp(source, roots);
  faults.push(...(stamp?.faults ?? []));
  const report = {
    faults,
    ...(signedBy === undefined ? {} : { signedBy }),
    ...(stamp === undefined ? {} : { stamp }),
  };
  // What was changed is not worth judging, and what is said of it would mislead.
  if (faults.length > 0) return { ...report, figures: { entries: 0, verdicts: 0 } };
  const records = await checkRecords(source);
  return { ...report, faults: records.faults, figures: records.figures };
}

async function signature(
  source: BagSource,
  trusted?: string,
): Promise<{ faults: BagFault[]; signedBy?: string }> {
  const refuse = (file: string, problem: string) => ({ faults: [{ file, problem }] });
  for (const file of [SIGNATURE, SIGNED_MANIFEST, "certs/signer.pem"]) {
    if (!source.names.includes(file)) return refuse(file, "It is missing.");
  }
  const bytes = await buffer(source.open(SIGNATURE));
  const manifest = await buffer(source.open(SIGNED_MANIFEST));
  const check = await checkDetached(bytes, manifest);
  if (!check.ok) return refuse(SIGNATURE, check.problem);
  const enclosed = await fingerprintsOf(await readText(source, "certs/signer.pem"));
  if (!enclosed.includes(check.sha256)) {
    return refuse("certs/signer.pem", "It is not the certificate of the key that signed.");
  }
  if (trusted !== undefined && !(await fingerprintsOf(trusted)).includes(check.sha256)) {
    return refuse(
      SIGNATURE,
      `It was signed with the key ${check.sha256}, which is none of those given.`,
    );
  }
  return { faults: [], signedBy: check.sha256 };
}
