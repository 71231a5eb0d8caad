// How a job stands by what is on the tablet: the packet, and operations the server may not have.
import { describe, expect, test } from "vitest";
import { closeOut } from "../../src/domain/closeout/gate.ts";
import type { KeptOp } from "../../src/tablet/contract.ts";
import { verdictOnAttempt } from "../../src/tablet/job/attempt-verdict.ts";
import { findItem, readJob } from "../../src/tablet/job/job-state.ts";
import { setBack } from "../../src/tablet/job/kept-answers.ts";
import { nextItem } from "../../src/tablet/job/next-items.ts";
import { answerAt, GAUGE, keptOp, PACKS, packetOf } from "./support/job-packet.ts";

const at = (seconds: number): string => new Date(Date.UTC(2026, 2, 2, 9, 0, seconds)).toISOString();
const NOBODY_LATER = new Set<string>();

const briefed = () => keptOp(answerAt(1, "briefed", { done: true }));

function titleOfNext(ops: KeptOp[], setAside = NOBODY_LATER, now = at(60)): string {
  const next = nextItem(readJob(packetWithMeter(), ops, now), setAside);
  return "state" in next ? `${next.kind} ${next.state.compiled.item.id}` : next.kind;
}

describe("answers known on the tablet", () => {
  test.each([
    ["waiting", true],
    ["stored", true],
    ["held", false],
    ["refused", false],
  ] as const)("one that is %s counts: %s", (state, counts) => {
    const kept = { ...briefed(), state };
    const job = readJob(packetOf(), [kept], at(60));
    expect(findItem(job, "briefed", "")?.verdict.clears).toBe(counts);
    expect(setBack([kept], "briefed", "").length).toBe(counts ? 0 : 1);
  });

  test("one that came back in the packet is known once, and still as the tablet's own", () => {
    const kept = { ...briefed(), state: "stored" as const };
    const { opId, personId } = kept.op;
    const own = { id: opId, personId, order: 7, photos: [] };
    const answer = { ...answerAt(1, "briefed", { done: true }).answer, ...own };
    const job = readJob(packetOf({ answers: [answer], lastOrder: 7 }), [kept], at(60));
    expect(job.answers).toHaveLength(1);
    expect(job.answers[0]?.kept).toBe(kept);
  });

  test("of two at one moment the tablet's own is the later, as the server will receive it", () => {
    const other = { id: PACKS[0], personId: PACKS[1], order: 4, photos: [] };
    const fromServer = { ...answerAt(5, "holes", { count: 4 }).answer, ...other };
    const own = keptOp(answerAt(5, "holes", { count: 3 }));
    const job = readJob(packetOf({ answers: [fromServer], lastOrder: 4 }), [own], at(60));
    const state = findItem(job, "holes", "");
    expect(state?.attempts.map(({ order }) => order)).toEqual([4, 5]);
    expect(state?.verdict.outcome).toBe("fail");
  });

  test("every attempt keeps the verdict it had", () => {
    const ops = [
      keptOp(answerAt(1, "holes", { count: 3 })),
      keptOp(answerAt(2, "holes", { count: 4 })),
    ];
    const job = readJob(packetOf(), ops, at(60));
    const attempts = findItem(job, "holes", "")?.attempts ?? [];
    expect(attempts.map((one) => verdictOnAttempt(job, one)?.outcome)).toEqual(["fail", "pass"]);
  });

  test("the gate is the server's own rule over the same facts", () => {
    const job = readJob(packetOf(), [briefed()], at(60));
    expect(job.gate()).toEqual(closeOut(job.facts.plan, job.answers, job.context));
    expect(job.gate().stats).toMatchObject({ holdPoints: 13, holdPointsMet: 1 });
  });
});

describe("the item the screen leads to", () => {
  test("is the first of the plan, then the next that is not met", () => {
    expect(titleOfNext([])).toBe("do briefed");
    expect(titleOfNext([briefed()])).toBe("do serial");
  });

  test("stays on a hold point that failed, until it is set aside", () => {
    const ops = [
      briefed(),
      ...PACKS.map((subject, index) =>
        keptOp(answerAt(2, "serial", { text: `HN000000${index + 1}` }, { subject })),
      ),
      keptOp(answerAt(3, "wall", { choice: "Something else" })),
    ];
    expect(titleOfNext(ops)).toBe("do wall");
    expect(titleOfNext(ops, new Set(["wall/"]))).toBe("do holes");
  });

  test("is never one that something else must come before", () => {
    const early = ["briefed/", `serial/${PACKS[0]}`, `serial/${PACKS[1]}`, "wall/", "holes/"];
    // The anchors need the depth, which was set aside, so the switches come.
    expect(titleOfNext([], new Set([...early, "depth/"]))).toBe("do address");
  });

  test("comes back to what was set aside once nothing else can be done", () => {
    const all = readJob(packetOf(), [], at(60)).items;
    const keys = new Set(all.map(({ compiled, subject }) => `${compiled.item.id}/${subject.key}`));
    expect(titleOfNext([], keys)).toBe("set-aside briefed");
  });

  test.each([
    [12.999, "wait voltage"],
    [13, "do voltage"],
  ])("waits out a dwell of three seconds: at second %d it says %s", (second, wanted) => {
    const ops = [...withoutSupplyOn(), keptOp(answerAt(10, "switched_on", { done: true }))];
    expect(titleOfNext(ops, NOBODY_LATER, at(second))).toBe(wanted);
  });

  test("is none once all is met", () => {
    const ops = [
      ...withoutSupplyOn(),
      keptOp(answerAt(10, "switched_on", { done: true })),
      keptOp(answerAt(13, "voltage", { number: "52", unit: "V" }, { instrumentId: "meter" })),
    ];
    const job = readJob(packetWithMeter(), ops, at(60));
    expect(nextItem(job, NOBODY_LATER).kind).toBe("all-met");
    expect(job.gate().open).toBe(true);
    expect(job.stages.map(({ left }) => left)).toEqual([0, 0, 0]);
  });
});

const packetWithMeter = () => {
  const calibrations = [{ on: "2025-06-01", due: "2026-12-31", passed: true }];
  const meter = { id: "meter", reference: "MM-07", class: "multimeter", calibrations };
  const wrench = { id: "wrench", reference: "TW-11", class: "torque-wrench", calibrations };
  return packetOf({ instruments: [...packetOf().instruments, meter, wrench] });
};

/** Every answer but those with the supply on; photo and signature as they are kept. */
function withoutSupplyOn(): KeptOp[] {
  const photo = keptOp(answerAt(8, "picture", {}));
  photo.op.photoSha256 = ["a".repeat(64)];
  return [
    briefed(),
    ...PACKS.flatMap((subject, index) => [
      keptOp(answerAt(2, "serial", { text: `HN000000${index + 1}` }, { subject })),
      keptOp(answerAt(6, "address", { positions: { address: String(index) } }, { subject })),
    ]),
    keptOp(answerAt(3, "wall", { choice: "Concrete" })),
    keptOp(answerAt(3, "holes", { count: 4 })),
    keptOp(answerAt(4, "depth", { number: "62", unit: "mm" }, { instrumentId: GAUGE })),
    keptOp(answerAt(5, "anchors", TIGHT, { instrumentId: "wrench" })),
    photo,
    keptOp(answerAt(9, "signed", { name: "Ida Rook" })),
  ];
}

const TIGHT = { points: [1, 3, 2, 4], setting: { number: "12", unit: "N·m" } };
