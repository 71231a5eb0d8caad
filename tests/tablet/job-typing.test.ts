// What is typed: the value it makes, the verdict foretold, and what is told beside it.
import { describe, expect, test } from "vitest";
import type { Item } from "../../src/domain/plan/item.ts";
import { type Draft, draftValue } from "../../src/tablet/job/draft.ts";
import { instrumentChoices } from "../../src/tablet/job/instruments.ts";
import {
  findItem,
  type ItemState,
  type JobState,
  readJob,
} from "../../src/tablet/job/job-state.ts";
import { preview } from "../../src/tablet/job/preview.ts";
import { otherUnitWith } from "../../src/tablet/job/serials-here.ts";
import { neededWords, wantedPositions } from "../../src/tablet/job/wanted.ts";
import { GAUGE, gauge, JOB, PACKS, PERSON, packetOf } from "./support/job-packet.ts";

const NOW = "2026-03-02T09:30:00Z";
const job = readJob(packetOf(), [], NOW);

function stateOf(itemId: string, subject = "", of: JobState = job): ItemState {
  const state = findItem(of, itemId, subject);
  if (!state) throw new Error(`no item ${itemId}`);
  return state;
}

const itemOf = (itemId: string): Item => {
  const compiled = job.facts.plan.byId.get(itemId);
  if (!compiled) throw new Error(`no item ${itemId}`);
  return compiled.item;
};

describe("a draft's value", () => {
  test.each<[string, Draft, object | undefined]>([
    ["briefed", {}, undefined],
    ["briefed", { done: false }, { done: false }],
    ["depth", { number: "" }, undefined],
    ["depth", { number: "62" }, { number: "62", unit: "mm" }],
    ["depth", { number: "2.5", unit: "in" }, { number: "2.5", unit: "in" }],
    ["holes", { count: "0" }, { count: 0 }],
    ["wall", { choice: "Concrete" }, { choice: "Concrete" }],
    ["serial", { text: "  " }, undefined],
    ["picture", { photos: [] }, undefined],
    ["signed", { name: " Ida Rook " }, { name: "Ida Rook" }],
    ["address", { positions: { address: "" } }, undefined],
    ["address", { positions: { address: "0" } }, { positions: { address: "0" } }],
  ])("of %s with %o is %o", (itemId, draft, value) => {
    expect(draftValue(itemOf(itemId), draft)).toEqual(value);
  });

  test("of fasteners is whole only when each was ticked or said to stay open", () => {
    const three = { number: "12", points: [1, 3, 2] };
    expect(draftValue(itemOf("anchors"), three)).toBeUndefined();
    expect(draftValue(itemOf("anchors"), { ...three, leftOpen: [4] })).toEqual({
      points: [1, 3, 2],
      setting: { number: "12", unit: "N·m" },
    });
  });
});

describe("the verdict foretold", () => {
  const taking = { personId: PERSON, takenAt: NOW, instrumentId: GAUGE };
  const outcomeOf = (draft: Draft): string => {
    const found = preview(job, stateOf("depth"), draft, taking);
    return found.state === "judged" ? found.verdict.outcome : found.state;
  };

  test.each([
    ["50", "mm", "fail"],
    ["50.1", "mm", "pass"],
    // 1 in is 25.4 mm exactly (NIST SP 811): 50 mm lie between these.
    ["1.968", "in", "fail"],
    ["1.969", "in", "pass"],
    [">40", "mm", "fail"],
    [">51", "mm", "pass"],
    ["50.1.2", "mm", "unreadable"],
    ["", "mm", "incomplete"],
    [">", "mm", "incomplete"],
    ["-", "mm", "incomplete"],
  ])("on %s %s is %s", (number, unit, outcome) => {
    expect(outcomeOf({ number, unit })).toBe(outcome);
  });

  test("counts the instrument: without one the reading does not meet the item", () => {
    const bare = { personId: PERSON, takenAt: NOW };
    const found = preview(job, stateOf("depth"), { number: "62" }, bare);
    expect(found).toMatchObject({ state: "judged", verdict: { code: "instrument-missing" } });
  });
});

test("what is needed is told in words, and switches by the pack's place", () => {
  expect(neededWords(job, stateOf("depth"))).toBe("more than 50 mm");
  expect(neededWords(job, stateOf("briefed"))).toBeUndefined();
  expect(PACKS.map((pack) => wantedPositions(job, stateOf("address", pack)))).toEqual([
    [{ switch: "address", position: "0" }],
    [{ switch: "address", position: "1" }],
  ]);
});

test.each([
  ["2026-03-01", true],
  ["2026-03-02", false],
])("an instrument due %s is told as out of date: %s (the due day is in date)", (due, told) => {
  const packet = packetOf({ instruments: [gauge("old", "DG-01", due)] });
  const [choice] = instrumentChoices(readJob(packet, [], NOW), "depth-gauge", NOW);
  expect(choice?.fault !== undefined).toBe(told);
});

test("instruments fit for use come first, of those the ones that are booked", () => {
  const instruments = [
    gauge("old", "DG-01", "2026-01-01", { booked: true }),
    gauge("free", "DG-02", "2026-12-31"),
    gauge("booked", "DG-03", "2026-12-31", { booked: true }),
  ];
  const choices = instrumentChoices(
    readJob(packetOf({ instruments }), [], NOW),
    "depth-gauge",
    NOW,
  );
  expect(choices.map(({ instrument }) => instrument.id)).toEqual(["booked", "free", "old"]);
});

describe("a serial of another unit on this tablet", () => {
  const packets = [{ packet: packetOf(), fetchedAt: NOW }];
  test.each([
    ["hn0000002", { jobId: JOB, unitId: PACKS[0] }, 2],
    ["HN0000001", { jobId: JOB, unitId: PACKS[0] }, undefined],
    ["HN0000009", { jobId: JOB, unitId: PACKS[0] }, undefined],
    ["", { jobId: JOB, unitId: PACKS[0] }, undefined],
  ])("%s is found at place %s", (typed, own, position) => {
    expect(otherUnitWith(packets, typed, own)?.position).toBe(position);
  });
});
