// What can be wrong with an evidence bag. The sentences stand with the other texts, so that each
// reader gets them in a language of their own.

export const FAULT_CODES = [
  // Files, as they lie there and as the manifests list them.
  "no-ordinary-file",
  "outside-folder",
  "twice-in-zip",
  "zip-checksum",
  "name",
  "missing",
  "missing-listed",
  "unlisted",
  "checksum",
  "list-surplus",
  "list-unread",
  "not-bagit",
  "payload-sum",
  // Signature and time stamp.
  "signature-unread",
  "signature-unfit",
  "signer-other",
  "key-not-given",
  "stamp-unfit",
  "stamp-not-of-given",
  "stamp-not-of-enclosed",
  // Jobs of a bag of several.
  "scope-unread",
  "scope-head",
  "scope-no-job",
  "scope-unlisted",
  "scope-absent",
  "scope-twice",
  // Ledger, and records beside it.
  "not-canonical",
  "record-unread",
  "photos-differ",
  "ledger-end",
  "ledger-entry",
  "ledger-other-job",
  "ledger-head",
  "ledger-twice",
  "text-unread",
  "text-order",
  "text-surplus",
  "text-differs",
  "text-missing",
  "not-in-ledger",
  "differs-from-ledger",
  "only-in-ledger",
  // Verdicts.
  "plan-unfit",
  "other-rules",
  "verdict-count",
  "verdict-differs",
  "fact-differs",
  "close-out-entry",
  "close-out-facts",
  "close-out-context",
  "close-out-not-ready",
] as const;
export type FaultCode = (typeof FAULT_CODES)[number];

/** Something wrong: in which file of the bag, and what; `values` fill the sentence. */
export type BagFault = {
  file: string;
  code: FaultCode;
  values: Readonly<Record<string, string | number>>;
};

/** One fault, as a value. */
export const fault = (
  file: string,
  code: FaultCode,
  values: BagFault["values"] = {},
): BagFault => ({ file, code, values });
