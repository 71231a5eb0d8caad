// That what an intact bag states holds together: ledger unbroken, records as the ledger has them,
// every verdict as the rules give it.
import type { z } from "zod";
import { photoName, RECORD_FILES } from "../domain/evidence/bag-record.ts";
import { parseCanonical } from "../domain/evidence/canonical-json.ts";
import {
  compareWithLedger,
  HEAD_FILE,
  LEDGER_FILE,
  type LedgerFact,
  replayLedger,
} from "../domain/evidence/recheck-ledger.ts";
import {
  type BagFault,
  type JudgedRecord,
  recheckVerdicts,
} from "../domain/evidence/recheck-verdicts.ts";
import type { Judgement, SealedFacts } from "../domain/evidence/sealed-facts.ts";
import { type BagSource, readText } from "./verify-source.ts";

type Records = { [Name in keyof typeof RECORD_FILES]: z.infer<(typeof RECORD_FILES)[Name]> };

export interface RecordFigures {
  entries: number;
  verdicts: number;
}

/** Everything that does not hold together, and how much was looked at. */
export async function checkRecords(
  source: BagSource,
): Promise<{ faults: BagFault[]; figures: RecordFigures }> {
  const none = { entries: 0, verdicts: 0 };
  const read = await readRecords(source);
  if (!read.ok) return { faults: read.faults, figures: none };
  const { records } = read;
  const missing = [LEDGER_FILE, HEAD_FILE].find((file) => !source.names.includes(file));
  if (missing) return { faults: [{ file: missing, problem: "It is missing." }], figures: none };
  const text = await readText(source, LEDGER_FILE);
  const head = await readText(source, HEAD_FILE);
  const ledger = replayLedger(text, head, records["job.json"].id);
  const compared = {
    answers: records["answers.json"],
    concessions: records["concessions.json"],
    photos: records["photos.json"],
  };
  const faults = [
    ...ledger.faults,
    ...(ledger.faults.length > 0 ? [] : compareWithLedger(compared, ledger.facts)),
    ...photoFaults(source, records),
    ...recheckVerdicts(judgedRecord(records, ledger.facts)),
  ];
  const { facts, answers } = records["verdicts.json"];
  const verdicts = facts.length + answers.length;
  return { faults, figures: { entries: ledger.facts.length, verdicts } };
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
    if (!json.ok) faults.push({ file, problem: "It is not canonical JSON (RFC 8785)." });
    else if (issue) faults.push({ file, problem: `/${issue.path.join("/")}: ${issue.message}` });
    records[name] = parsed.data;
  }
  return faults.length > 0 ? { ok: false, faults } : { ok: true, records: records as Records };
}

function photoFaults(source: BagSource, records: Records): BagFault[] {
  const stated = records["photos.json"].map(photoName);
  const there = source.names.filter((name) => name.startsWith("data/photos/"));
  const problem = "Photos and data/records/photos.json are not the same.";
  return [...stated, ...there]
    .filter((name) => stated.includes(name) !== there.includes(name))
    .map((file) => ({ file, problem }));
}
