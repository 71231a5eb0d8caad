// The browser's checksums beside the platform's own, for files that come in parts.
import { randomBytes } from "node:crypto";
import { expect, test } from "vitest";
import { crc32, summing } from "../../src/check/sums.ts";
import { sumsOf } from "../../src/cli/verify-sums.ts";

const bytes = randomBytes(300_000);
const CUTS = [[], [1], [63, 64, 65], [127, 128, 129], [65_536, 262_144], [0, 299_999]];

async function* partsOf(cuts: readonly number[]): AsyncIterable<Uint8Array> {
  for (const [index, from] of [0, ...cuts].entries()) {
    yield bytes.subarray(from, cuts[index] ?? bytes.length);
  }
}

test.each(CUTS)(
  "a file in parts cut at %j has its sums, held whole or in passing",
  async (...cuts) => {
    const expected = await sumsOf(partsOf(cuts));
    for (const wholeMost of [0, 100_000, 299_999, 300_000]) {
      expect(await summing(wholeMost)(partsOf(cuts))).toEqual(expected);
    }
  },
);

test("a file without a byte has its sums", async () => {
  async function* nothing(): AsyncIterable<Uint8Array> {}
  expect(await summing()(nothing())).toEqual(await sumsOf(nothing()));
});

test("the check value of CRC-32 comes out (catalogue of CRC algorithms, from memory)", () => {
  expect(crc32(Buffer.from("123456789"), 0).toString(16)).toBe("cbf43926");
});
