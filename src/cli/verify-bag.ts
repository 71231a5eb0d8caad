import { stat } from "node:fs/promises";
import { buffer } from "node:stream/consumers";
import { SIGNATURE, SIGNED_MANIFEST } from "../domain/evidence/bag-manifest.ts";
import type { BagFault } from "../domain/evidence/recheck-verdicts.ts";
import { fromPem } from "../features/evidence/certificate.ts";
import { checkDetached, fingerprint } from "../features/evidence/signature.ts";
import { openFolder } from "./verify-folder.ts";
import { integrityFaults } from "./verify-integrity.ts";
import { checkRecords, type RecordFigures } from "./verify-records.ts";
import { type BagSource, readText } from "./verify-source.ts";
import { openZip } from "./verify-zip.ts";

export interface BagReport {
  faults: BagFault[];
  /** SHA-256 of the certificate that signed; left out where no signature could be read. */
  signedBy?: string;
  figures: RecordFigures;
}

/**
 * Checks an evidence bag: a ZIP file or a folder.
 * @param trusted the firm's certificates as PEM, got another way; without them the bag vouches for
 *   its key itself
 */
export async function verifyBag(path: string, trusted?: string): Promise<BagReport> {
  const source = (await stat(path)).isDirectory() ? await openFolder(path) : await openZip(path);
  const faults = await integrityFaults(source);
  const signed = await signature(source, trusted);
  faults.push(...signed.faults);
  const { signedBy } = signed;
  const report = { faults, ...(signedBy === undefined ? {} : { signedBy }) };
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
  const enclosed = fromPem(await readText(source, "certs/signer.pem")).map(fingerprint);
  if (!enclosed.includes(check.sha256)) {
    return refuse("certs/signer.pem", "It is not the certificate of the key that signed.");
  }
  if (trusted !== undefined && !fromPem(trusted).map(fingerprint).includes(check.sha256)) {
    return refuse(
      SIGNATURE,
      `It was signed with the key ${check.sha256}, which is none of those given.`,
    );
  }
  return { faults: [], signedBy: check.sha256 };
}
