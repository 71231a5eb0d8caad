// Requirement: every verdict in an evidence bag is worked out again from the plan, the readings and
// the facts by the same rules as on the day (product rule).
import { RULE_VERSION } from "../closeout/gate.ts";
import { checkPlan } from "../plan/check.ts";
import { type CompiledPlan, compilePlan } from "../plan/compile.ts";
import { type BagFault, type FaultCode, fault } from "./bag-fault.ts";
import { type AnswerRecord, type CloseOutRecord, readFacts, toAnswer } from "./bag-record.ts";
import { canonicalize } from "./canonical-json.ts";
import { type Judgement, judgeRecord, type SealedFacts } from "./sealed-facts.ts";

export type JudgedRecord = {
  plan: unknown;
  facts: SealedFacts;
  answers: readonly AnswerRecord[];
  verdicts: Judgement;
  closeOuts: readonly CloseOutRecord[];
  /** Body of each job.closed entry of the ledger, by the entry's place. */
  closedBodies: ReadonlyMap<number, Readonly<Record<string, unknown>>>;
};

const VERDICTS = "data/records/verdicts.json";
const CLOSE_OUT = "data/records/close-out.json";

/** Every verdict of a record that does not come out again, with the file that states it. */
export function recheckVerdicts(record: JudgedRecord): BagFault[] {
  const checked = checkPlan(record.plan);
  if (!checked.ok) {
    return [fault("data/records/plan.json", "plan-unfit")];
  }
  const { ruleVersion } = record.verdicts;
  if (ruleVersion !== RULE_VERSION) {
    return [fault(VERDICTS, "other-rules", { stated: ruleVersion, own: RULE_VERSION })];
  }
  const plan = compilePlan(checked.plan);
  const judged = judgeRecord(plan, record.answers.map(toAnswer), record.facts);
  return [
    ...answerFaults(record, judged),
    ...factFaults(VERDICTS, record.verdicts.facts, judged.facts),
    ...record.closeOuts.flatMap((closeOut) => closeOutFaults(record, plan, closeOut)),
  ];
}

function answerFaults({ answers, verdicts }: JudgedRecord, judged: Judgement): BagFault[] {
  if (verdicts.answers.length !== answers.length) {
    return [fault(VERDICTS, "verdict-count")];
  }
  return judged.answers.flatMap(({ id, verdict }, index) => {
    const stated = verdicts.answers[index];
    if (stated?.id === id && alike(stated.verdict, verdict)) return [];
    const item = String(answers[index]?.itemId);
    const said = stated?.verdict?.outcome ?? "–";
    const found = verdict ? `${verdict.outcome}: ${verdict.sentence}` : "–";
    return [fault(VERDICTS, "verdict-differs", { id, item, said, found })];
  });
}

function factFaults(file: string, stated: readonly unknown[], found: readonly unknown[]) {
  const faults: BagFault[] = [];
  for (let index = 0; index < Math.max(stated.length, found.length); index += 1) {
    if (alike(stated[index], found[index])) continue;
    const { itemId, subject, sentence } = (found[index] ?? stated[index] ?? {}) as Fact;
    const about = subject ? `${itemId} (${subject})` : String(itemId);
    faults.push(fault(file, "fact-differs", { about, sentence: sentence ?? "" }));
  }
  return faults;
}

type Fact = { itemId?: string; subject?: string; sentence?: string };

/** A close-out is judged on the facts that its ledger entry sealed, not on those of today. */
function closeOutFaults(
  record: JudgedRecord,
  plan: CompiledPlan,
  closeOut: CloseOutRecord,
): BagFault[] {
  const body = record.closedBodies.get(closeOut.ledgerSeq);
  const { id, ledgerSeq: entry } = closeOut;
  const refuse = (code: FaultCode): BagFault[] => [fault(CLOSE_OUT, code, { id, entry })];
  if (body?.closeOutId !== id) return refuse("close-out-entry");
  if (!alike(body.facts, closeOut.facts)) return refuse("close-out-facts");
  const sealed = readFacts(body.context);
  if (!sealed) return refuse("close-out-context");
  const seen = record.answers.filter((answer) => answer.receiptOrder <= closeOut.answersThrough);
  const judged = judgeRecord(plan, seen.map(toAnswer), sealed);
  if (!judged.open) return refuse("close-out-not-ready");
  return factFaults(CLOSE_OUT, closeOut.facts, judged.facts);
}

/**
 * Whether two JSON values say the same. Numbers count to twelve digits: the last ones of a computed
 * risk may differ from one machine to the next.
 */
function alike(left: unknown, right: unknown): boolean {
  return written(left) === written(right);
}

function written(value: unknown): string {
  const rounded = JSON.stringify(value ?? null, (_name, member: unknown) =>
    typeof member === "number" ? Number(member.toPrecision(12)) : member,
  );
  return canonicalize(JSON.parse(rounded));
}
