// The whole check of an evidence bag, alike in the operator's command and in a browser: files,
// signature, time stamp, then what the records state.

import { type BagFault, type FaultCode, fault } from "../domain/evidence/bag-fault.ts";
import { SIGNATURE, SIGNED_MANIFEST } from "../domain/evidence/bag-manifest.ts";
import { type BagSource, readBytes, readText } from "./bag-source.ts";
import { readStamp, type StampReport } from "./bag-stamp.ts";
import { fingerprintsOf } from "./certificates.ts";
import { checkDetached } from "./cms-signature.ts";
import { integrityFaults, type Passing } from "./integrity.ts";
import { checkRecords, type RecordFigures } from "./records.ts";

export type CheckStep = "files" | "signature" | "stamp" | "record";

export interface BagReport {
  faults: BagFault[];
  /** How many of them each step found; steps after the first that found any were not taken. */
  found: Partial<Record<CheckStep, number>>;
  files: number;
  /** SHA-256 of the certificate that signed; left out where no signature could be read. */
  signedBy?: string;
  /** Left out where what it stamps does not hold. */
  stamp?: StampReport;
  figures: RecordFigures;
}

export interface CheckOptions extends Passing {
  /** The firm's certificates as PEM, got another way; without them the bag vouches for its key. */
  trusted?: string;
  /** Root certificates of the time-stamp service, likewise. */
  roots?: string;
  /** A ledger's head that is printed on paper, to be looked for. */
  head?: string;
}

/** Everything that is wrong with a bag, and what it was found to hold. */
export async function checkBag(source: BagSource, options: CheckOptions): Promise<BagReport> {
  const files = await integrityFaults(source, options);
  const signed = await signature(source, options.trusted);
  const broken = [...files, ...signed.faults];
  const stamp = broken.length > 0 ? undefined : await readStamp(source, options.roots);
  const faults = [...broken, ...(stamp?.faults ?? [])];
  const report: BagReport = {
    ...{ faults, files: source.names.length, figures: { entries: 0, verdicts: 0, withheld: 0 } },
    found: {
      ...{ files: files.length, signature: signed.faults.length },
      ...(stamp ? { stamp: stamp.faults.length } : {}),
    },
    ...(signed.signedBy === undefined ? {} : { signedBy: signed.signedBy }),
    ...(stamp ? { stamp } : {}),
  };
  // What was changed is not worth judging, and what is said of it would mislead.
  if (faults.length > 0) return report;
  const records = await checkRecords(source, options.head);
  report.found.record = records.faults.length;
  return { ...report, faults: records.faults, figures: records.figures };
}

async function signature(
  source: BagSource,
  trusted?: string,
): Promise<{ faults: BagFault[]; signedBy?: string }> {
  const refuse = (file: string, code: FaultCode, values: BagFault["values"] = {}) => ({
    faults: [fault(file, code, values)],
  });
  for (const file of [SIGNATURE, SIGNED_MANIFEST, "certs/signer.pem"]) {
    if (!source.names.includes(file)) return refuse(file, "missing");
  }
  const bytes = await readBytes(source, SIGNATURE);
  const check = await checkDetached(bytes, await readBytes(source, SIGNED_MANIFEST));
  if (!check.ok) return refuse(SIGNATURE, check.code, { why: check.why });
  const enclosed = await fingerprintsOf(await readText(source, "certs/signer.pem"));
  if (!enclosed.includes(check.sha256)) {
    return refuse("certs/signer.pem", "signer-other");
  }
  if (trusted !== undefined && !(await fingerprintsOf(trusted)).includes(check.sha256)) {
    return refuse(SIGNATURE, "key-not-given", { key: check.sha256 });
  }
  return { faults: [], signedBy: check.sha256 };
}
