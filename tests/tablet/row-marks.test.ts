// What the marker says after each operation is worked out from what it said before. Compared with
// what the whole store says, which is how it was worked out at first.
import fc from "fast-check";
import { afterEach, describe, expect, test } from "vitest";
import { notBehind, readMarks, writeMarks } from "../../src/tablet/store/marker.ts";
import { marksAfter, marksOf, type OpKey } from "../../src/tablet/store/rows.ts";
import { keepMany, TestTablet } from "./support/test-tablet.ts";

const OWN = "019ac4a1-0000-7cc1-9d6a-0c8f6f0b7a0d";
const OTHERS = ["019ac4a1-0000-7cc1-9d6a-0c8f6f0b7a0c", "019ac4a1-0000-7cc1-9d6a-0c8f6f0b7a0e"];
const rowOf = (lastSeq: number) => ({ id: OWN, lastSeq, lastHash: "" });
const inOrder = (marks: ReturnType<typeof marksOf> | undefined) =>
  marks?.toSorted((a, b) => (a.deviceId < b.deviceId ? -1 : 1));

describe("the marks after one more operation", () => {
  test("are those of all that waits, whatever waited before", () => {
    const waitingIn = (id: string, most: number) =>
      fc
        .uniqueArray(fc.integer({ min: 1, max: most }), { maxLength: 5 })
        .map((seqs) => seqs.map((seq): OpKey => [id, seq]));
    const world = fc
      .nat({ max: 9 })
      .chain((last) =>
        fc.tuple(fc.constant(last), ...[OWN, ...OTHERS].map((id) => waitingIn(id, last || 1))),
      );
    fc.assert(
      fc.property(world, ([last, own, ...others]) => {
        const waiting = [...(last === 0 ? [] : own!), ...others.flat()];
        const before = marksOf(rowOf(last), waiting);
        const after = marksOf(rowOf(last + 1), [...waiting, [OWN, last + 1]]);
        expect(inOrder(marksAfter(before, rowOf(last + 1)))).toEqual(inOrder(after));
      }),
    );
  });

  test.each([
    ["nothing is known of them", undefined],
    ["the row is another", [{ deviceId: OTHERS[0]!, lastSeq: 3, settledSeq: 3 }]],
    ["another tab kept something meanwhile", [{ deviceId: OWN, lastSeq: 2, settledSeq: 0 }]],
  ])("are not guessed where %s", (_why, before) => {
    expect(marksAfter(before, rowOf(4))).toBeUndefined();
  });
});

describe("the marker of a tablet", () => {
  const tablet = new TestTablet();
  afterEach(() => tablet.switchOff());

  test("follows what two tabs keep by turns, and what was settled in between", async () => {
    const [one, two] = [await tablet.open(), await tablet.open()];
    const own = (await keepMany(one, 2))[1]!;
    await keepMany(two, 1);
    await keepMany(one, 1);
    const { deviceId } = own;
    expect(readMarks([tablet.marker])).toEqual([{ deviceId, lastSeq: 4, settledSeq: 0 }]);
    const [first] = await one.opsFrom(deviceId, 1, 1);
    const stored = { opId: first!.opId, deviceSeq: 1, outcome: "stored", repeated: false } as const;
    await one.settle(deviceId, [stored], { at: "2026-11-25T10:42:00Z" });
    await keepMany(one, 1);
    expect(tablet.marker).toBe(writeMarks([{ deviceId, lastSeq: 5, settledSeq: 1 }]));
    expect(await Promise.all([keepMany(one, 3), keepMany(two, 3)])).toHaveLength(2);
    expect(readMarks([tablet.marker])).toEqual([{ deviceId, lastSeq: 11, settledSeq: 1 }]);
  });
});

describe("two tabs that note at the same time", () => {
  test("never put a row back to less than what stands there, and add what is new", () => {
    const mark = (deviceId: string, lastSeq: number, settledSeq: number) => ({
      ...{ deviceId, lastSeq, settledSeq },
    });
    const late = writeMarks([mark(OWN, 7, 3)]);
    const standing = [writeMarks([mark(OWN, 9, 2)]), writeMarks([mark(OWN, 8, 5)])];
    expect(readMarks([notBehind(late, standing)])).toEqual([mark(OWN, 9, 5)]);
    const other = OTHERS[0]!;
    expect(readMarks([notBehind(writeMarks([mark(other, 1, 0)]), standing)])).toEqual([
      mark(other, 1, 0),
    ]);
  });
});
