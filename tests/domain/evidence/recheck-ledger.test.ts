// The chain as documented is built here with Node's own SHA-256 (FIPS 180-4) over the canonical
// texts; that records and ledger agree is a product rule.
import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import type {
  AnswerRecord,
  ConcessionRecord,
  PhotoRecord,
} from "../../../src/domain/evidence/bag-record.ts";
import { FIRST_PREVIOUS, ledgerEntryText } from "../../../src/domain/evidence/ledger-entry.ts";
import {
  type ComparedRecord,
  compareWithLedger,
  erasedNotes,
  type LedgerFact,
  replayLedger,
} from "../../../src/domain/evidence/recheck-ledger.ts";

const ID = "019ac4a1-7d5e-7cc1-9d6a-0c8f6f0b7a11";
const JOB = "019ac4a1-1111-7cc1-9d6a-0c8f6f0b7a11";
const SUM = "ab".repeat(32);
const sha256 = (text: string): string => createHash("sha256").update(text).digest("hex");

function ledgerOf(bodies: readonly Record<string, unknown>[]): { text: string; head: string } {
  let previous = FIRST_PREVIOUS;
  const lines = bodies.map((body, index) => {
    const at = "2026-11-25T10:00:00.000Z";
    const line = ledgerEntryText({ at, body, job: JOB, kind: "test", previous, seq: index + 1 });
    previous = sha256(line);
    return `${line}\n`;
  });
  return { text: lines.join(""), head: `${previous}\n` };
}

describe("the ledger of a bag", () => {
  const { text, head } = ledgerOf([{ a: 1 }, { a: "two\nlines" }, {}]);

  test("replays from its first entry to its head", () => {
    const { facts, faults } = replayLedger(text, head, JOB);
    expect(faults).toEqual([]);
    expect(facts.map(({ seq, body }) => [seq, body])).toEqual([
      [1, { a: 1 }],
      [2, { a: "two\nlines" }],
      [3, {}],
    ]);
    expect(replayLedger("", `${FIRST_PREVIOUS}\n`, JOB)).toEqual({
      ...{ facts: [], hashes: [], faults: [] },
    });
  });

  test.each([
    ["without its last line end", text.slice(0, -1), head],
    ["with its last entry cut off", `${text.split("\n").slice(0, 2).join("\n")}\n`, head],
    ["with a changed entry", text.replace('"a":1', '"a":2'), head],
    ["with a space that JSON allows", text.replace('"a":1', '"a": 1'), head],
    ["with an empty line", `${text}\n`, head],
    ["with half a character in it", `\ud800${text}`, head],
    ["with another head", text, head.replace(/^./, (digit) => (digit === "0" ? "1" : "0"))],
    ["with a head without its line end", text, head.trimEnd()],
    ["with no head", text, ""],
  ])("%s is refused", (_what, changed, changedHead) => {
    expect(replayLedger(changed, changedHead, JOB).faults).toHaveLength(1);
  });

  test("of another job is refused", () => {
    expect(replayLedger(text, head, ID).faults[0]?.code).toBe("ledger-other-job");
  });
});

const answer: AnswerRecord = {
  id: ID,
  itemId: "voltage",
  subject: "",
  value: { number: "52.1", unit: "V" },
  instrumentId: null,
  note: "read twice",
  photos: [SUM],
  takenAt: "2026-11-25T10:00:00+00:00",
  receivedAt: "2026-11-25T10:00:01.000Z",
  personId: ID,
  receiptOrder: 1,
  bodySha256: SUM,
  verdict: { outcome: "pass", clears: true, code: "passed", sentence: "Read 52.1 V.", attempts: 1 },
};
const photo = { sha256: SUM, mediaType: "image/png", bytes: 9 } as PhotoRecord;
const concession: ConcessionRecord = {
  id: ID,
  itemId: "voltage",
  subject: "",
  reason: "Rested pack",
  grantedById: ID,
  grantedAt: "2026-11-25T11:00:00.000Z",
  expiresOn: null,
  revokedAt: "2026-11-25T12:00:00.000Z",
  revokedById: JOB,
};
const RECORD: ComparedRecord = {
  ...{ answers: [answer], photos: [photo], concessions: [concession] },
  reopenings: [{ closeOutId: ID, reason: "Label misread", reopenedById: JOB }],
};

const { note, receivedAt: _receivedAt, verdict, ...facts } = answer;
const { attempts: _attempts, ...stated } = verdict;
const LEDGER: LedgerFact[] = [
  { kind: "photo.received", body: { sha256: SUM, mediaType: "image/png", bytes: 9 } },
  { kind: "answer.taken", body: { ...facts, ...stated, noteSha256: sha256(note ?? "") } },
  {
    kind: "concession.granted",
    body: {
      concessionId: ID,
      itemId: "voltage",
      subject: "",
      reason: "Rested pack",
      grantedById: ID,
      expiresOn: null,
    },
  },
  { kind: "concession.revoked", body: { concessionId: ID, revokedById: JOB } },
  { kind: "job.opened", body: {} },
  { kind: "job.reopened", body: { closeOutId: ID, personId: JOB, reason: "Label misread" } },
].map((entry, index) => ({ seq: index + 1, ...entry }));

describe("records and ledger", () => {
  test("that say the same are fine", () => {
    expect(compareWithLedger(RECORD, LEDGER)).toEqual([]);
  });

  test("say the same where the ledger holds the note itself", () => {
    const written = LEDGER.map((entry) => {
      const { noteSha256, ...body } = entry.body as { noteSha256?: string };
      return noteSha256 === undefined ? entry : { ...entry, body: { ...body, note } };
    });
    expect(compareWithLedger(RECORD, written)).toEqual([]);
    const other = { ...RECORD, answers: [{ ...answer, note: "Erased" }] };
    expect(compareWithLedger(other, written)).toHaveLength(1);
  });

  test("may lack a note of old that the ledger says was erased after it, and no other word", () => {
    const noted = (word: string | null) => ({ ...RECORD, answers: [{ ...answer, note: word }] });
    const erased = { seq: LEDGER.length + 1, kind: "record.erased", body: {} };
    const after = [...LEDGER, erased];
    expect(compareWithLedger(noted("Erased"), after)).toEqual([]);
    expect(erasedNotes(noted("Erased").answers, after)).toEqual([answer.id]);
    expect(compareWithLedger(RECORD, after)).toEqual([]);
    expect(erasedNotes(RECORD.answers, after)).toEqual([]);
    for (const word of ["erased", "read once", "", null]) {
      expect(compareWithLedger(noted(word), after), `${word}`).toHaveLength(1);
    }
    expect(compareWithLedger(noted("Erased"), LEDGER)).toHaveLength(1);
    expect(compareWithLedger(noted("Erased"), [{ ...erased, seq: 0 }, ...LEDGER])).toHaveLength(1);
  });

  test.each<[string, Partial<ComparedRecord>]>([
    ["a missing answer", { answers: [] }],
    ["an answer too many", { answers: [answer, { ...answer, id: JOB }] }],
    ["another value", { answers: [{ ...answer, value: { number: "52.2", unit: "V" } }] }],
    ["another time", { answers: [{ ...answer, takenAt: "2026-11-25T10:00:00Z" }] }],
    ["another instrument", { answers: [{ ...answer, instrumentId: JOB }] }],
    ["another note", { answers: [{ ...answer, note: "read once" }] }],
    ["no note", { answers: [{ ...answer, note: null }] }],
    ["another verdict", { answers: [{ ...answer, verdict: { ...verdict, clears: false } }] }],
    ["a missing photo", { photos: [] }],
    ["a photo of another size", { photos: [{ ...photo, bytes: 8 }] }],
    ["a concession for another reason", { concessions: [{ ...concession, reason: "None" }] }],
    ["another reason to reopen", { reopenings: [{ ...RECORD.reopenings[0]!, reason: "None" }] }],
    ["a concession that stands again", { concessions: [{ ...concession, revokedAt: null }] }],
  ])("differ by %s", (_what, changed) => {
    expect(compareWithLedger({ ...RECORD, ...changed }, LEDGER)).toHaveLength(1);
  });

  test("differ by an entry that is there twice", () => {
    const twice = [...LEDGER, ...LEDGER.slice(0, 1)];
    expect(compareWithLedger(RECORD, twice)[0]).toMatchObject({
      ...{ code: "ledger-twice", values: { key: "sha256" } },
    });
  });
});
