// That what an intact bag states holds together: ledger unbroken, records as the ledger has them,
// every verdict as the rules give it.
import type { z } from "zod";
import { type BagFault, fault } from "../domain/evidence/bag-fault.ts";
import { photoName, RECORD_FILES } from "../domain/evidence/bag-record.ts";
import { BagScope, SCOPE_FILE, scopeFaults } from "../domain/evidence/bag-scope.ts";
import { parseCanonical } from "../domain/evidence/canonical-json.ts";
import {
  compareWithLedger,
  erasedNotes,
  HEAD_FILE,
  LEDGER_FILE,
  type LedgerFact,
  replayLedger,
} from "../domain/evidence/recheck-ledger.ts";
import { openLedger, TEXTS_FILE } from "../domain/evidence/recheck-texts.ts";
import { type JudgedRecord, recheckVerdicts } from "../domain/evidence/recheck-verdicts.ts";
import type { Judgement, SealedFacts } from "../domain/evidence/sealed-facts.ts";
import { type BagSource, readText } from "./bag-source.ts";

type Records = { [Name in keyof typeof RECORD_FILES]: z.infer<(typeof RECORD_FILES)[Name]> };

export interface RecordFigures {
  entries: number;
  verdicts: number;
  /** Texts that were erased: their hashes stand, they themselves are not there. */
  withheld: number;
  /** Where the head that was looked for stands in a ledger. */
  printed?: { folder: string; entry: number; entries: number };
}

export interface RecordsReport {
  faults: BagFault[];
  figures: RecordFigures;
}

/** Everything that does not hold together, and how much was looked at. */
export async function checkRecords(source: BagSource, sought?: string): Promise<RecordsReport> {
  if (!source.names.includes(SCOPE_FILE)) return checkRecord(source, "data", sought);
  const scope = BagScope.safeParse(canonical(await readText(source, SCOPE_FILE)));
  if (!scope.success) return refuse([fault(SCOPE_FILE, "scope-unread")]);
  const report = refuse(scopeFaults(scope.data, source.names));
  for (const job of scope.data.jobs) {
    const { faults, figures } = await checkRecord(within(source, job.folder), job.folder, sought);
    const head = `${job.folder}/${HEAD_FILE.slice(PAYLOAD.length)}`;
    const stated = source.names.includes(head) ? await readText(source, head) : "";
    if (stated !== `${job.head}\n`) {
      report.faults.push(fault(head, "scope-head", { list: SCOPE_FILE }));
    }
    const place = (file: string): string => file.replace(PAYLOAD, `${job.folder}/`);
    report.faults.push(...faults.map((one) => ({ ...one, file: place(one.file) })));
    report.figures.entries += figures.entries;
    report.figures.verdicts += figures.verdicts;
    report.figures.withheld += figures.withheld;
    if (figures.printed) report.figures.printed = figures.printed;
  }
  return report;
}

const PAYLOAD = "data/";
const NOTHING = { entries: 0, verdicts: 0, withheld: 0 };
const canonical = (text: string): unknown => {
  const parsed = parseCanonical(text);
  return parsed.ok ? parsed.value : undefined;
};
const refuse = (faults: BagFault[]): RecordsReport => ({
  faults,
  figures: NOTHING,
});

/** One job's folder, as if it were the bag of that job. */
const within = (source: BagSource, folder: string): BagSource => ({
  faults: [],
  names: source.names
    .filter((name) => name.startsWith(`${folder}/`))
    .map((name) => PAYLOAD + name.slice(folder.length + 1)),
  open: (name) => source.open(`${folder}/${name.slice(PAYLOAD.length)}`),
});

async function checkRecord(
  source: BagSource,
  folder: string,
  sought?: string,
): Promise<RecordsReport> {
  const read = await readRecords(source);
  if (!read.ok) return { faults: read.faults, figures: NOTHING };
  const { records } = read;
  const missing = [LEDGER_FILE, HEAD_FILE].find((file) => !source.names.includes(file));
  if (missing) return { faults: [fault(missing, "missing")], figures: NOTHING };
  const text = await readText(source, LEDGER_FILE);
  const head = await readText(source, HEAD_FILE);
  const replayed = replayLedger(text, head, records["job.json"].id);
  const texts = source.names.includes(TEXTS_FILE) ? await readText(source, TEXTS_FILE) : "";
  const ledger = { ...replayed, ...openLedger(replayed.facts, texts) };
  const compared = {
    answers: records["answers.json"],
    concessions: records["concessions.json"],
    photos: records["photos.json"],
    reopenings: records["close-out.json"].reopenings,
  };
  const faults = [
    ...replayed.faults,
    ...ledger.faults,
    ...(replayed.faults.length + ledger.faults.length > 0
      ? []
      : compareWithLedger(compared, ledger.facts)),
    ...photoFaults(source, records),
    ...recheckVerdicts(judgedRecord(records, ledger.facts)),
  ];
  const { facts, answers } = records["verdicts.json"];
  const verdicts = facts.length + answers.length;
  const [entries, entry] = [ledger.facts.length, ledger.hashes.indexOf(sought ?? "") + 1];
  const printed = entry > 0 ? { printed: { folder, entry, entries } } : {};
  const withheld = ledger.withheld + erasedNotes(compared.answers, ledger.facts).length;
  return { faults, figures: { entries, verdicts, withheld, ...printed } };
}

function judgedRecord(records: Records, ledger: readonly LedgerFact[]): JudgedRecord {
  const closings = ledger.filter(({ kind }) => kind === "job.closed");
  return {
    plan: records["plan.json"],
    facts: records["facts.json"] as unknown as SealedFacts,
    answers: records["answers.json"],
    verdicts: records["verdicts.json"] as unknown as Judgement,
    closeOuts: records["close-out.json"].closeOuts,
    closedBodies: new Map(closings.map(({ seq, body }) => [seq, body])),
  };
}

async function readRecords(
  source: BagSource,
): Promise<{ ok: true; records: Records } | { ok: false; faults: BagFault[] }> {
  const faults: BagFault[] = [];
  const records: Record<string, unknown> = {};
  for (const [name, schema] of Object.entries(RECORD_FILES)) {
    const file = `data/records/${name}`;
    const text = source.names.includes(file) ? await readText(source, file) : "";
    const json = parseCanonical(text);
    const parsed = schema.safeParse(json.ok ? json.value : undefined);
    const issue = parsed.error?.issues[0];
    if (!json.ok) faults.push(fault(file, "not-canonical"));
    else if (issue) {
      const place = `/${issue.path.join("/")}`;
      faults.push(fault(file, "record-unread", { place, why: issue.message }));
    }
    records[name] = parsed.data;
  }
  return faults.length > 0 ? { ok: false, faults } : { ok: true, records: records as Records };
}

function photoFaults(source: BagSource, records: Records): BagFault[] {
  const stated = records["photos.json"].map(photoName);
  const there = source.names.filter((name) => name.startsWith("data/photos/"));
  return [...stated, ...there]
    .filter((name) => stated.includes(name) !== there.includes(name))
    .map((file) => fault(file, "photos-differ"));
}
