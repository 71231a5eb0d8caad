// Requirement: every verdict in an evidence bag is worked out again from the plan, the readings and
// the facts by the same rules as on the day (product rule).
import { RULE_VERSION } from "../closeout/gate.ts";
import { checkPlan } from "../plan/check.ts";
import { type CompiledPlan, compilePlan } from "../plan/compile.ts";
import { type AnswerRecord, type CloseOutRecord, readFacts, toAnswer } from "./bag-record.ts";
import { canonicalize } from "./canonical-json.ts";
import { type Judgement, judgeRecord, type SealedFacts } from "./sealed-facts.ts";

/** Something wrong: in which file of the bag, and what, in a sentence. */
export type BagFault = { file: string; problem: string };

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
    return [{ file: "data/records/plan.json", problem: "It does not pass the check of plans." }];
  }
  const { ruleVersion } = record.verdicts;
  if (ruleVersion !== RULE_VERSION) {
    const problem = `It was judged by the rules ${ruleVersion}; this verifier has ${RULE_VERSION}.`;
    return [{ file: VERDICTS, problem }];
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
    return [{ file: VERDICTS, problem: "It does not hold one verdict for each answer." }];
  }
  return judged.answers.flatMap(({ id, verdict }, index) => {
    const stated = verdicts.answers[index];
    if (stated?.id === id && alike(stated.verdict, verdict)) return [];
    const itemId = answers[index]?.itemId;
    const said = stated?.verdict?.outcome ?? "nothing";
    const found = verdict ? `${verdict.outcome}: ${verdict.sentence}` : "nothing";
    const problem = `Answer ${id} to ${itemId} is stated as ${said}, and comes out as ${found}`;
    return [{ file: VERDICTS, problem }];
  });
}

function factFaults(file: string, stated: readonly unknown[], found: readonly unknown[]) {
  const faults: BagFault[] = [];
  for (let index = 0; index < Math.max(stated.length, found.length); index += 1) {
    if (alike(stated[index], found[index])) continue;
    const { itemId, subject, sentence } = (found[index] ?? stated[index] ?? {}) as Fact;
    const about = subject ? `${itemId} for ${subject}` : String(itemId);
    faults.push({ file, problem: `${about} does not come out as stated: ${sentence}` });
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
  const refuse = (problem: string): BagFault[] => [{ file: CLOSE_OUT, problem }];
  const start = `Close-out ${closeOut.id}`;
  if (body?.closeOutId !== closeOut.id) {
    return refuse(`${start} is not what entry ${closeOut.ledgerSeq} of the ledger records.`);
  }
  if (!alike(body.facts, closeOut.facts)) {
    return refuse(`${start} states other facts than entry ${closeOut.ledgerSeq} of the ledger.`);
  }
  const sealed = readFacts(body.context);
  if (!sealed) return refuse(`${start} cannot be judged again: its ledger entry holds no context.`);
  const seen = record.answers.filter((answer) => answer.receiptOrder <= closeOut.answersThrough);
  const judged = judgeRecord(plan, seen.map(toAnswer), sealed);
  if (!judged.open) return refuse(`${start}: the job was not ready to be closed.`);
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
