// A picture whose header states more pixels than are taken is refused with its size named.
import { crc32 } from "node:zlib";
import sharp from "sharp";
import { expect, test } from "vitest";
import { readPicture } from "../../src/features/photos/picture.ts";

test("a small file that states a huge picture is refused with the size it states", async () => {
  const create = { width: 64, height: 64, channels: 3, background: "red" } as const;
  const png = await sharp({ create }).png().toBuffer();
  png.writeUInt32BE(100_000, 16);
  png.writeUInt32BE(100_000, 20);
  png.writeUInt32BE(crc32(png.subarray(12, 29)), 29);
  expect(await readPicture(png)).toEqual({
    ok: false,
    problem: "The picture has 100000 × 100000 pixels; at most 60 million are taken.",
  });
});
