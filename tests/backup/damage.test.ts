// Every kind of harm to a backup's bytes is found before anything is restored from it.
import { randomBytes } from "node:crypto";
import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { buffer } from "node:stream/consumers";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { FORMAT, HEAD } from "../../src/cli/backup/format.ts";
import { type Contents, readArchive } from "../../src/cli/backup/read-archive.ts";
import { type Keys, makeKey, seal, unseal } from "../../src/cli/backup/seal.ts";
import { ArchiveWriter } from "../../src/cli/backup/write-archive.ts";
import { REPLAY } from "../faults/tally.ts";
import { chanceOf, roundsOf, SEED } from "../support/chance.ts";
import { temporaryFolder } from "../support/demo.ts";

const ROUNDS = roundsOf(60);
const folder = temporaryFolder();
const keyFile = join(folder, "key");
const path = join(folder, "backup");
let plain: Buffer;
let sealed: Buffer;

const HEAD_VALUE = {
  format: FORMAT,
  madeAt: "2026-11-25T09:00:00.000Z",
  version: "0",
  serverVersion: "18",
  migrations: [],
  tables: [],
};

/** Entries of every size that matters: none, one block, many chunks of the encryption. */
async function makeArchive(): Promise<Buffer> {
  const archive = new ArchiveWriter(new Date("2026-11-25T09:00:00Z"));
  const bytes = buffer(archive.output);
  await archive.add(HEAD, Buffer.from(JSON.stringify(HEAD_VALUE)));
  for (const size of [0, 1, 512, 513, 70_000, 200_000]) {
    const file = join(folder, `file-${size}`);
    writeFileSync(file, randomBytes(size));
    await archive.addFile(`folder/files/${size}`, file);
  }
  await archive.finish({ rows: {}, files: 0, missing: [] });
  return bytes;
}

beforeAll(async () => {
  writeFileSync(keyFile, (await makeKey()).text);
  plain = await makeArchive();
  sealed = await buffer(await seal([plain] as unknown as AsyncIterable<Uint8Array>, { keyFile }));
});
afterAll(() => rmSync(folder, { recursive: true }));

async function read(bytes: Buffer, keys: Keys = { keyFile }): Promise<Contents> {
  writeFileSync(path, bytes);
  return readArchive(await unseal(path, keys), async () => undefined);
}

const flipped = (bytes: Buffer, at: number, bit: number): Buffer => {
  const harmed = Buffer.from(bytes);
  harmed[at] = (harmed[at] ?? 0) ^ (1 << bit);
  return harmed;
};

describe.each([
  ["plain", () => plain],
  ["encrypted", () => sealed],
])("a backup that is %s", (_kind, bytes) => {
  test("is whole as it was written", async () => {
    const { end } = await read(bytes());
    expect(end).toMatchObject({ entries: 7, bytes: expect.any(Number) });
  });

  test(`is refused when it ends early, at ${ROUNDS} places (${REPLAY})`, async () => {
    const chance = chanceOf(SEED);
    // A tar file ends with two empty blocks: without them nothing of it is missing.
    const most = bytes() === plain ? plain.length - 1025 : sealed.length - 1;
    for (let round = 0; round < ROUNDS; round += 1) {
      const length = round < 10 ? most - round : chance.between(0, most);
      await expect(read(bytes().subarray(0, length)), `${length} ${REPLAY}`).rejects.toThrow();
    }
  });
});

test(`an encrypted backup with a flipped bit is refused, ${ROUNDS} times (${REPLAY})`, async () => {
  const chance = chanceOf(SEED + 1);
  for (let round = 0; round < ROUNDS; round += 1) {
    const at = round < 20 ? round * 12 : chance.between(0, sealed.length - 1);
    const harmed = flipped(sealed, at, chance.between(0, 7));
    await expect(read(harmed), `${at} ${REPLAY}`).rejects.toThrow();
  }
});

test(`a plain backup with a bit of its contents flipped is refused (${REPLAY})`, async () => {
  const chance = chanceOf(SEED + 2);
  const { length } = plain;
  for (let round = 0; round < ROUNDS; round += 1) {
    // The largest entry's own bytes: padding and dates in a tar file say nothing of what is kept.
    const at = chance.between(length - 190_000, length - 10_000);
    await expect(read(flipped(plain, at, 3)), `${at} ${REPLAY}`).rejects.toThrow(/altered/);
  }
});

test("an encrypted backup with two chunks swapped, or one left out, is refused", async () => {
  const chunk = 64 * 1024 + 16;
  const start = sealed.length % chunk;
  const parts = [0, 1, 2].map((place) =>
    sealed.subarray(start + place * chunk, start + (place + 1) * chunk),
  );
  const [first, second, third] = parts as [Buffer, Buffer, Buffer];
  const before = sealed.subarray(0, start);
  await expect(read(Buffer.concat([before, second, first, third]))).rejects.toThrow();
  await expect(read(Buffer.concat([before, first, third]))).rejects.toThrow();
});

test("an encrypted backup without its key is refused with the way out", async () => {
  await expect(read(sealed, {})).rejects.toThrow("--key-file FILE");
  const other = join(folder, "other");
  writeFileSync(other, (await makeKey()).text);
  await expect(read(sealed, { keyFile: other })).rejects.toThrow("does not open with this");
});

// A passphrase is made slow to try on purpose, three times here.
test("another passphrase than the one it was made with does not open it", {
  timeout: 120_000,
}, async () => {
  const [right, wrong] = [join(folder, "right"), join(folder, "wrong")];
  writeFileSync(right, "lantern quarry seven otters\n");
  writeFileSync(wrong, "lantern quarry seven badgers\n");
  const made = await buffer(
    await seal([plain] as unknown as AsyncIterable<Uint8Array>, { passphraseFile: right }),
  );
  await expect(read(made, { passphraseFile: wrong })).rejects.toThrow("does not open with this");
  expect((await read(made, { passphraseFile: right })).end.entries).toBe(7);
});

test("something that is no backup is refused", async () => {
  await expect(read(Buffer.from("not a backup at all".repeat(100)))).rejects.toThrow("no backup");
  await expect(read(Buffer.alloc(0))).rejects.toThrow();
});
