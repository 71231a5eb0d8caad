// Files in pieces: the same bytes come out, and memory that nobody else holds goes back at once.
import { randomBytes } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PassThrough, Readable } from "node:stream";
import { buffer } from "node:stream/consumers";
import { pipeline } from "node:stream/promises";
import { afterAll, beforeAll, expect, test } from "vitest";
import { lend, readInPieces, writeInPieces } from "../../src/features/photos/pieces.ts";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "holdpoint-pieces-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

const KIB = 1024;

test.for([0, 1, 512 * KIB - 1, 512 * KIB, 512 * KIB + 1, 3000 * KIB])(
  "a file of %d bytes is read and written as it is",
  async (size) => {
    const [from, to] = [join(folder, `from-${size}`), join(folder, `to-${size}`)];
    const bytes = randomBytes(size);
    writeFileSync(from, bytes);
    const seen: Buffer[] = [];
    const passing = new PassThrough();
    passing.on("data", (piece: Buffer) => seen.push(piece));
    await pipeline(readInPieces(from), passing, writeInPieces(to));
    expect(readFileSync(to).equals(bytes)).toBe(true);
    expect(seen.map(({ buffer: memory }) => memory.byteLength)).toEqual(seen.map(() => 0));
  },
);

test("read for anything else the pieces stay as they are", async () => {
  const from = join(folder, "kept");
  const bytes = randomBytes(1500 * KIB);
  writeFileSync(from, bytes);
  expect((await buffer(readInPieces(from))).equals(bytes)).toBe(true);
});

test("only what was lent goes when it is written, and no memory that others share", async () => {
  const shared = Buffer.from("shared with others");
  expect(shared.buffer.byteLength).toBeGreaterThan(shared.length);
  const [kept, lent] = [Buffer.alloc(64 * KIB, 1), lend(Buffer.alloc(64 * KIB, 2))];
  await pipeline(Readable.from([kept, lent, lend(shared)]), writeInPieces(join(folder, "mixed")));
  expect([kept[0], kept.length, lent.length]).toEqual([1, 64 * KIB, 0]);
  expect(shared.toString()).toBe("shared with others");
});

test("a file that is not there fails the stream", async () => {
  await expect(buffer(readInPieces(join(folder, "none")))).rejects.toMatchObject({
    code: "ENOENT",
  });
});
