// The hash of all heads is compared with Node's own SHA-256 over the lines as documented; the chain
// is a product rule.
import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  CheckpointReplay,
  type Head,
  headsSha256,
  makeCheckpoint,
  type StoredCheckpoint,
} from "../../../src/domain/evidence/checkpoint.ts";

const job = (number: number): string =>
  `00000000-0000-7000-8000-${String(number).padStart(12, "0")}`;
const head = (number: number, seq: number): Head => ({
  job: job(number),
  seq,
  sha256: createHash("sha256").update(`${number} ${seq}`).digest("hex"),
});
const FIRM = job(999);
const AT = "2026-11-25T00:11:00.000Z";

/** Checkpoints of a firm whose heads on each day are those given. */
function chain(days: readonly Head[][]): StoredCheckpoint[] {
  const replay = new CheckpointReplay();
  return days.map((heads, index) => {
    const day = `2026-11-${String(index + 10)}`;
    const { number, text, sha256 } = makeCheckpoint({ at: AT, day, firm: FIRM }, heads, { replay });
    const stored = { number, day, text, sha256 };
    expect(replay.take(stored)).toBeUndefined();
    return stored;
  });
}

const problemIn = (checkpoints: readonly StoredCheckpoint[]): string | undefined => {
  const replay = new CheckpointReplay();
  for (const checkpoint of checkpoints) {
    const problem = replay.take(checkpoint);
    if (problem) return problem;
  }
  return undefined;
};

const DAYS = [[], [head(1, 3)], [head(1, 3), head(2, 1)], [head(1, 9), head(2, 1)]];

describe("the hash of all heads", () => {
  test("is SHA-256 over a line for each, whatever order they come in", () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.nat(50)), (numbers) => {
        const heads = numbers.map((number) => head(number, number + 1));
        const lines = heads.map((one) => `${one.job} ${one.seq} ${one.sha256}\n`).sort();
        const expected = createHash("sha256").update(lines.join("")).digest("hex");
        expect(headsSha256(heads)).toBe(expected);
        expect(headsSha256(heads.toReversed())).toBe(expected);
      }),
    );
  });
});

describe("a chain of checkpoints", () => {
  test("replays to the last heads, and each names only what moved", () => {
    const checkpoints = chain(DAYS);
    expect(problemIn(checkpoints)).toBeUndefined();
    const changed = checkpoints.map(({ text }) => JSON.parse(text).changed.length);
    expect(changed).toEqual([0, 1, 1, 1]);
    const replay = new CheckpointReplay();
    for (const checkpoint of checkpoints) replay.take(checkpoint);
    expect([...replay.heads.values()]).toEqual(DAYS.at(-1));
  });

  test.each<[string, (all: StoredCheckpoint[]) => StoredCheckpoint[]]>([
    ["one left out", (all) => all.toSpliced(1, 1)],
    ["one twice", (all) => all.toSpliced(1, 0, all[1]!)],
    ["two in the other order", (all) => all.toSpliced(1, 2, all[2]!, all[1]!)],
    ["another day", (all) => all.with(1, { ...all[1]!, day: "2026-11-12" })],
    ["another text", (all) => all.with(1, { ...all[1]!, text: all[2]!.text })],
    ["another hash", (all) => all.with(1, { ...all[1]!, sha256: all[2]!.sha256 })],
  ])("with %s does not replay", (_what, change) => {
    expect(problemIn(change(chain(DAYS)))).toMatch(/^Checkpoint \d \(2026-11-\d\d\): /);
  });

  test("with a head rewritten and its own hash made anew does not replay", () => {
    const all = chain(DAYS);
    const text = all[1]!.text.replace('"seq":3', '"seq":2');
    const sha256 = createHash("sha256").update(text).digest("hex");
    expect(problemIn(all.with(1, { ...all[1]!, text, sha256 }))).toBe(
      "Checkpoint 2 (2026-11-11): its heads do not have the hash it states.",
    );
  });
});
