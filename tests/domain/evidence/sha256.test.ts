import { createHash } from "node:crypto";
import fc from "fast-check";
import { afterEach, describe, expect, test, vi } from "vitest";
import { sha256Hex, sha256HexSync, utf8 } from "../../../src/domain/evidence/sha256.ts";

afterEach(() => vi.unstubAllGlobals());

const TWO_BLOCKS = "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq";

describe("published digests", () => {
  test.each([
    ["FIPS 180 example", "abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
    [
      "FIPS 180 example of two blocks",
      TWO_BLOCKS,
      "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    ],
    [
      "RFC 8493 check",
      "hello\n",
      "5891b5b522d5df086d0ff0b110fbd9d21bb4fc7163af34d08286a2e846f6be03",
    ],
  ])("%s: %j", async (_name, text, digest) => {
    expect(sha256HexSync(utf8(text))).toBe(digest);
    expect(await sha256Hex(text)).toBe(digest);
  });

  test.each([
    ["", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"],
    ["d3", "28969cdfa74a12c82f3bad960b0b000aca2ac329deea5c2328ebc6f2ba9802c1"],
    ["11af", "5ca7133fa735326081558ac312c620eeca9970d1e70a4b95533d956f072d1f98"],
    ["b4190e", "dff2e73091f6c05e528896c4c831b9448653dc2ff043528f6769437bc7b975c2"],
    [
      "e2f76e97606a872e317439f1a03fcd92e632e5bd4e7cbc4e97f1afc19a16fde9" +
        "2d77cbe546416b51640cddb92af996534dfd81edb17c4424cf1ac4d75aceeb",
      "18041bd4665083001fba8c5411d2d748e8abbfdcdfd9218cb02b68a78e7d4c23",
    ],
  ])("NIST CAVS short message %s", async (message, digest) => {
    const bytes = Uint8Array.from(Buffer.from(message, "hex"));
    expect(sha256HexSync(bytes)).toBe(digest);
    expect(await sha256Hex(bytes)).toBe(digest);
  });

  test("FIPS 180 example of a million times the letter a", () => {
    expect(sha256HexSync(new Uint8Array(1_000_000).fill(0x61))).toBe(
      "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0",
    );
  });
});

test("every length over the first three blocks hashes as node:crypto does", () => {
  for (let length = 0; length <= 192; length += 1) {
    const bytes = Uint8Array.from({ length }, (_, index) => (index * 31 + length) % 256);
    expect(sha256HexSync(bytes)).toBe(createHash("sha256").update(bytes).digest("hex"));
  }
});

test("any bytes hash as node:crypto does, in both ways", async () => {
  await fc.assert(
    fc.asyncProperty(fc.uint8Array({ maxLength: 2_000 }), async (bytes) => {
      const expected = createHash("sha256").update(bytes).digest("hex");
      expect(sha256HexSync(bytes)).toBe(expected);
      expect(await sha256Hex(bytes)).toBe(expected);
    }),
    { numRuns: 300 },
  );
});

test("any text hashes as its UTF-8 bytes", async () => {
  await fc.assert(
    fc.asyncProperty(fc.string({ unit: "binary" }), async (text) => {
      const expected = createHash("sha256").update(text, "utf8").digest("hex");
      expect(await sha256Hex(text)).toBe(expected);
      expect(sha256HexSync(utf8(text))).toBe(expected);
    }),
  );
});

test("a view into a larger buffer hashes as its own bytes only", async () => {
  const whole = Uint8Array.from([1, 2, 0x61, 0x62, 0x63, 4]);
  const view = whole.subarray(2, 5);
  expect(await sha256Hex(view)).toBe(await sha256Hex("abc"));
  expect(sha256HexSync(view)).toBe(await sha256Hex("abc"));
});

test("where the platform has no digest, the text hashes all the same", async () => {
  vi.stubGlobal("crypto", {});
  expect(await sha256Hex("abc")).toBe(
    "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
  );
});

test("a text with a lone surrogate is refused: it has no UTF-8 form", async () => {
  expect(() => utf8("a\ud800")).toThrow(TypeError);
  await expect(sha256Hex("\udc00")).rejects.toThrow(TypeError);
});
