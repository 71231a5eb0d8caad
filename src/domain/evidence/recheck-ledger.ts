// Requirement: what the records of an evidence bag state is what the ledger recorded when it
// happened (product rule): an answer, photo or concession that one has and the other lacks shows.
import { type BagFault, type FaultCode, fault } from "./bag-fault.ts";
import type { AnswerRecord, ConcessionRecord, PhotoRecord } from "./bag-record.ts";
import { canonicalize } from "./canonical-json.ts";
import { ChainReplay } from "./ledger-chain.ts";
import { ERASED } from "./salted-texts.ts";
import { sha256HexSync, utf8 } from "./sha256.ts";

/** An entry of the ledger as far as the records are compared with it. */
export type LedgerFact = { seq: number; kind: string; body: Readonly<Record<string, unknown>> };

export const LEDGER_FILE = "data/ledger/entries.jsonl";
export const HEAD_FILE = "data/ledger/head.txt";

/**
 * Replays the ledger of a bag: one canonical entry a line, the hash of the last one in head.txt.
 * `hashes` are those of the entries, in order.
 * @param jobId the job that the bag is of
 */
export function replayLedger(
  text: string,
  headText: string,
  jobId: string,
): { facts: LedgerFact[]; hashes: string[]; faults: BagFault[] } {
  const lines = text.split("\n");
  const facts: LedgerFact[] = [];
  const hashes: string[] = [];
  const refuse = (file: string, code: FaultCode, values: BagFault["values"] = {}) => ({
    ...{ facts, hashes },
    faults: [fault(file, code, values)],
  });
  if (lines.pop() !== "") return refuse(LEDGER_FILE, "ledger-end");
  const replay = new ChainReplay();
  for (const line of lines) {
    const seq = facts.length + 1;
    const entry = { seq, text: line, sha256: sha256HexSync(utf8(line.toWellFormed())) };
    const problem = replay.take(entry);
    if (problem) return refuse(LEDGER_FILE, "ledger-entry", { why: problem });
    const { kind, body } = JSON.parse(line) as LedgerFact;
    facts.push({ seq, kind, body });
    hashes.push(entry.sha256);
  }
  if (facts.length > 0 && replay.job !== jobId) {
    return refuse(LEDGER_FILE, "ledger-other-job");
  }
  if (headText !== `${replay.head}\n`) {
    return refuse(HEAD_FILE, "ledger-head", { head: replay.head });
  }
  return { facts, hashes, faults: [] };
}

export type ComparedRecord = {
  answers: readonly AnswerRecord[];
  concessions: readonly ConcessionRecord[];
  photos: readonly PhotoRecord[];
  reopenings: readonly ReopeningRecord[];
};

type ReopeningRecord = { closeOutId: string; reason: string; reopenedById: string };

/**
 * Everything in which records and ledger differ.
 * @param ledger as it was written: hashes of texts opened (recheck-texts.ts)
 */
export function compareWithLedger(
  record: ComparedRecord,
  ledger: readonly LedgerFact[],
): BagFault[] {
  const bodies = (kind: string) =>
    ledger.filter((entry) => entry.kind === kind).map(({ body }) => body);
  const { answers, concessions, photos, reopenings } = record;
  return [
    ...sameRows("answers.json", answers.map(answerBody), keptAnswers(answers, ledger), "id"),
    ...sameRows("photos.json", photos.map(photoBody), bodies("photo.received"), "sha256"),
    ...sameRows(
      "concessions.json",
      concessions.map(grantBody),
      bodies("concession.granted"),
      "concessionId",
    ),
    ...sameRows(
      "concessions.json",
      concessions.filter(({ revokedAt }) => revokedAt !== null).map(revocationBody),
      bodies("concession.revoked"),
      "concessionId",
    ),
    ...sameRows(
      "close-out.json",
      reopenings.map(reopeningBody),
      bodies("job.reopened"),
      "closeOutId",
    ),
  ];
}

type Row = Readonly<Record<string, unknown>>;

/** `stated` and `kept` are the same rows by `key`; the ledger's may say more. */
function sameRows(
  file: string,
  stated: readonly Row[],
  kept: readonly Row[],
  key: string,
): BagFault[] {
  const faults: BagFault[] = [];
  const byKey = new Map(kept.map((body) => [body[key], body]));
  const refuse = (code: FaultCode, values: BagFault["values"]) =>
    faults.push(fault(`data/records/${file}`, code, values));
  if (byKey.size !== kept.length) refuse("ledger-twice", { key });
  for (const row of stated) {
    const body = byKey.get(row[key]);
    byKey.delete(row[key]);
    const wrong = body && Object.keys(row).find((name) => !same(row[name], body[name]));
    if (!body) refuse("not-in-ledger", { row: String(row[key]) });
    else if (wrong) refuse("differs-from-ledger", { member: wrong, row: String(row[key]) });
  }
  for (const missing of byKey.keys()) refuse("only-in-ledger", { row: String(missing) });
  return faults;
}

const same = (left: unknown, right: unknown): boolean =>
  canonicalize(left ?? null) === canonicalize(right ?? null);

function answerBody({ note, receivedAt: _receivedAt, verdict, ...facts }: AnswerRecord): Row {
  const { outcome, clears, code, sentence } = verdict;
  const noteSha256 = note === null ? null : sha256HexSync(utf8(note));
  return { ...facts, outcome, clears, code, sentence, noteSha256 };
}

/** Of what the ledger says was answered, with the hash of what is left of a note. */
function keptAnswers(answers: readonly AnswerRecord[], ledger: readonly LedgerFact[]): Row[] {
  const erased = new Set(erasedNotes(answers, ledger));
  return ledger
    .filter(({ kind }) => kind === "answer.taken")
    .map(({ body }) =>
      withNoteHash(erased.has(String(body.id)) ? { ...body, note: ERASED } : body),
    );
}

/**
 * Ids of answers of old whose note was erased. The ledger holds its plain hash, and says after it
 * that texts of the record were erased; without that, another word than the hash's was put there.
 */
export function erasedNotes(
  answers: readonly AnswerRecord[],
  ledger: readonly LedgerFact[],
): string[] {
  const empty = new Set(answers.filter(({ note }) => note === ERASED).map(({ id }) => id));
  const erasedAt = ledger.findLast(({ kind }) => kind === "record.erased")?.seq ?? 0;
  return ledger
    .filter(({ kind, seq }) => kind === "answer.taken" && seq < erasedAt)
    .filter(({ body }) => typeof body.noteSha256 === "string")
    .filter(({ body }) => body.noteSha256 !== sha256HexSync(utf8(ERASED)))
    .map(({ body }) => String(body.id))
    .filter((id) => empty.has(id));
}

/** Entries of old hold a note's plain hash, those of now the note itself. */
const withNoteHash = ({ note, ...body }: Row): Row =>
  typeof note === "string" ? { ...body, noteSha256: sha256HexSync(utf8(note)) } : body;

const photoBody = ({ bytes, mediaType, sha256 }: PhotoRecord): Row => ({
  bytes,
  mediaType,
  sha256,
});

const grantBody = (row: ConcessionRecord): Row => ({
  concessionId: row.id,
  expiresOn: row.expiresOn,
  grantedById: row.grantedById,
  itemId: row.itemId,
  reason: row.reason,
  subject: row.subject,
});

const revocationBody = ({ id, revokedById }: ConcessionRecord): Row => ({
  concessionId: id,
  revokedById,
});

const reopeningBody = ({ closeOutId, reason, reopenedById }: ReopeningRecord): Row => ({
  closeOutId,
  personId: reopenedById,
  reason,
});
