// The trade's practice installation (common practice, no source), judged, sealed and judged again.
import { describe, expect, test } from "vitest";
import type { AnswerRecord } from "../../../src/domain/evidence/bag-record.ts";
import { RECORD_FILES, toAnswer } from "../../../src/domain/evidence/bag-record.ts";
import {
  type JudgedRecord,
  recheckVerdicts,
} from "../../../src/domain/evidence/recheck-verdicts.ts";
import { judgeRecord, openFacts, sealFacts } from "../../../src/domain/evidence/sealed-facts.ts";
import { checkPlan } from "../../../src/domain/plan/check.ts";
import { compilePlan } from "../../../src/domain/plan/compile.ts";
import { PRACTICE_CONTEXT, PRACTICE_PLAN, passingAnswers } from "../closeout/practice-plan.ts";

const checked = checkPlan(PRACTICE_PLAN);
if (!checked.ok) throw new Error("the practice plan does not pass its check");
const plan = compilePlan(checked.plan);
const plain = <Value>(value: Value): Value => JSON.parse(JSON.stringify(value));
const ID = "019ac4a1-7d5e-7cc1-9d6a-0c8f6f0b7a11";

function record(): JudgedRecord {
  const answers = passingAnswers().map((answer) => ({
    ...answer,
    instrumentId: answer.instrumentId ?? null,
    note: null,
    photos: [],
    receivedAt: answer.takenAt,
    receiptOrder: answer.order,
    bodySha256: "0".repeat(64),
    verdict: { outcome: "pass", clears: true, code: "passed", sentence: "" },
  })) as AnswerRecord[];
  const facts = plain(sealFacts(PRACTICE_CONTEXT, answers.length));
  const verdicts = plain(judgeRecord(plan, answers.map(toAnswer), facts));
  const closeOut = {
    id: ID,
    ruleVersion: verdicts.ruleVersion,
    answersThrough: answers.length,
    ledgerSeq: 5,
    ledgerSha256: "0".repeat(64),
    closedById: ID,
    closedAt: PRACTICE_CONTEXT.now,
    facts: verdicts.facts,
  };
  const body = { closeOutId: ID, context: facts, facts: verdicts.facts };
  const closedBodies = new Map([[5, body]]);
  return { plan: PRACTICE_PLAN, facts, answers, verdicts, closeOuts: [closeOut], closedBodies };
}

describe("a record that was judged", () => {
  test("comes out again", () => {
    expect(recheckVerdicts(record())).toEqual([]);
  });

  test("comes out again where a computed number differs in its last digits only", () => {
    const own = record();
    const reading = own.verdicts.answers.find(({ verdict }) => (verdict?.reading?.number ?? 0) > 1)
      ?.verdict?.reading;
    reading!.number *= 1 + 2 * Number.EPSILON;
    expect(recheckVerdicts(own)).toEqual([]);
    reading!.number *= 1 + 1e-9;
    expect(recheckVerdicts(own)).toHaveLength(1);
  });

  test("has its facts back as they were, photos and all", () => {
    const photosHeld = new Set(["b".repeat(64), "a".repeat(64)]);
    const sealed = plain(sealFacts({ ...PRACTICE_CONTEXT, photosHeld }, 0));
    expect(sealed.photosHeld).toEqual(["a".repeat(64), "b".repeat(64)]);
    expect(openFacts(sealed).photosHeld).toEqual(photosHeld);
    expect(RECORD_FILES["facts.json"].safeParse(sealed).success).toBe(true);
  });

  test("is sealed without uses of a tool that became known after its last answer", () => {
    const [tool, ...others] = PRACTICE_CONTEXT.instruments;
    const use = { day: "2026-11-25", cycles: 4 };
    const uses = [
      { ...use, fromOrder: 7 },
      { ...use, fromOrder: 8 },
    ];
    const context = { ...PRACTICE_CONTEXT, instruments: [{ ...tool!, uses }, ...others] };
    expect(sealFacts(context, 7).instruments[0]?.uses).toEqual(uses.slice(0, 1));
  });
});

describe("what does not come out again is told", () => {
  const first = (change: (own: JudgedRecord) => JudgedRecord) =>
    recheckVerdicts(change(record()))[0];

  test("a stated verdict", () => {
    const fault = first((own) => {
      own.verdicts.answers[0]!.verdict!.outcome = "fail";
      return own;
    });
    expect(fault).toMatchObject({ code: "verdict-differs", values: { said: "fail" } });
    expect(fault?.values.found).toMatch(/^pass: /);
  });

  test("a verdict left out", () => {
    const fault = first((own) => {
      own.verdicts.answers.pop();
      return own;
    });
    expect(fault?.code).toBe("verdict-count");
  });

  test("a fact left out", () => {
    const fault = first((own) => {
      own.verdicts.facts.pop();
      return own;
    });
    expect(fault?.code).toBe("fact-differs");
  });

  test("a close-out that the ledger does not have", () => {
    const fault = first((own) => ({ ...own, closedBodies: new Map() }));
    expect(fault).toMatchObject({ code: "close-out-entry", values: { entry: 5 } });
  });

  test("a close-out whose sealed facts do not bear it out", () => {
    const fault = first((own) => {
      const body = own.closedBodies.get(5);
      const context = { ...own.facts, instruments: [] };
      return { ...own, closedBodies: new Map([[5, { ...body, context }]]) };
    });
    expect(fault?.code).toBe("close-out-not-ready");
  });

  test("a close-out before the last answers", () => {
    const fault = first((own) => {
      const [closeOut] = own.closeOuts;
      return { ...own, closeOuts: [{ ...closeOut!, answersThrough: 3 }] };
    });
    expect(fault?.code).toBe("close-out-not-ready");
  });

  test("rules of another version", () => {
    const fault = first((own) => ({
      ...own,
      verdicts: { ...own.verdicts, ruleVersion: "gate/0" },
    }));
    expect(fault).toMatchObject({ code: "other-rules", values: { stated: "gate/0" } });
  });

  test("a plan that is none", () => {
    expect(first((own) => ({ ...own, plan: {} }))?.file).toBe("data/records/plan.json");
  });
});
