// Requirement: seals are hashes that any outsider can recompute. Source: FIPS 180-4, SHA-256. The
// platform's own digest only answers later and is absent from pages served without TLS; the ledger
// is replayed and the outbox chained step by step, so a synchronous one stands beside it.

const WORD_BYTES = 4;
const BLOCK_BYTES = 64;
const LENGTH_BYTES = 8;
const ROUNDS = 64;

/** FIPS 180-4, 4.2.2 and 5.3.3: fraction bits of the cube and square roots of the first primes. */
const PRIMES = firstPrimes(ROUNDS);
const ROUND_CONSTANTS = Uint32Array.from(PRIMES, (prime) => rootFraction(prime, 3n));
const INITIAL_HASH = Uint32Array.from(PRIMES.slice(0, 8), (prime) => rootFraction(prime, 2n));

/**
 * SHA-256 of bytes, or of a text's UTF-8 bytes, as 64 lower-case hex digits (FIPS 180-4), by the
 * platform's digest where there is one. Rejects with TypeError for a text with a lone surrogate,
 * which has no UTF-8 form: two such texts would share one hash.
 */
export async function sha256Hex(data: string | Uint8Array): Promise<string> {
  const bytes = new Uint8Array(typeof data === "string" ? utf8(data) : data);
  const subtle: typeof crypto.subtle | undefined = globalThis.crypto?.subtle;
  if (!subtle) return sha256HexSync(bytes);
  return hex(new Uint8Array(await subtle.digest("SHA-256", bytes)));
}

/** SHA-256 of bytes as 64 lower-case hex digits (FIPS 180-4, 6.2), in one go. */
export function sha256HexSync(bytes: Uint8Array): string {
  const padded = pad(bytes);
  const view = new DataView(padded.buffer);
  const hash = Uint32Array.from(INITIAL_HASH);
  const schedule = new Uint32Array(ROUNDS);
  for (let offset = 0; offset < padded.length; offset += BLOCK_BYTES) {
    fillSchedule(schedule, view, offset);
    compress(hash, schedule);
  }
  const digest = new DataView(new ArrayBuffer(hash.length * WORD_BYTES));
  for (const [index, word] of hash.entries()) digest.setUint32(index * WORD_BYTES, word);
  return hex(new Uint8Array(digest.buffer));
}

/** The UTF-8 bytes of a text; throws TypeError for a lone surrogate, which has none. */
export function utf8(text: string): Uint8Array<ArrayBuffer> {
  if (!text.isWellFormed()) throw new TypeError("text with a lone surrogate has no UTF-8 form");
  return new TextEncoder().encode(text);
}

/** 5.1.1: a 1 bit, zeros, and the length in bits as 64 bits, up to a whole block. */
function pad(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const blocks = Math.ceil((bytes.length + 1 + LENGTH_BYTES) / BLOCK_BYTES);
  const padded = new Uint8Array(blocks * BLOCK_BYTES);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setBigUint64(padded.length - LENGTH_BYTES, BigInt(bytes.length) * 8n);
  return padded;
}

/** 6.2.2 step 1. */
function fillSchedule(schedule: Uint32Array, view: DataView, offset: number): void {
  for (let t = 0; t < 16; t += 1) schedule[t] = view.getUint32(offset + t * WORD_BYTES);
  for (let t = 16; t < ROUNDS; t += 1) {
    const far = at(schedule, t - 15);
    const near = at(schedule, t - 2);
    const low = rotate(far, 7) ^ rotate(far, 18) ^ (far >>> 3);
    const high = rotate(near, 17) ^ rotate(near, 19) ^ (near >>> 10);
    schedule[t] = at(schedule, t - 16) + low + at(schedule, t - 7) + high;
  }
}

/** 6.2.2 steps 2 to 4. */
function compress(hash: Uint32Array, schedule: Uint32Array): void {
  let [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = hash;
  for (let t = 0; t < ROUNDS; t += 1) {
    const high = rotate(e, 6) ^ rotate(e, 11) ^ rotate(e, 25);
    const choice = (e & f) ^ (~e & g);
    const first = (h + high + choice + at(ROUND_CONSTANTS, t) + at(schedule, t)) | 0;
    const low = rotate(a, 2) ^ rotate(a, 13) ^ rotate(a, 22);
    const majority = (a & b) ^ (a & c) ^ (b & c);
    [h, g, f, e] = [g, f, e, (d + first) | 0];
    [d, c, b, a] = [c, b, a, (first + low + majority) | 0];
  }
  for (const [index, word] of [a, b, c, d, e, f, g, h].entries()) {
    hash[index] = at(hash, index) + word;
  }
}

function at(words: Uint32Array, index: number): number {
  return words[index] ?? 0;
}

function rotate(word: number, bits: number): number {
  return (word >>> bits) | (word << (32 - bits));
}

function hex(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

function firstPrimes(count: number): bigint[] {
  const primes: bigint[] = [];
  for (let candidate = 2n; primes.length < count; candidate += 1n) {
    if (primes.every((prime) => candidate % prime !== 0n)) primes.push(candidate);
  }
  return primes;
}

/** The first 32 bits behind the point of a root, by bisection on whole numbers. */
function rootFraction(value: bigint, degree: bigint): number {
  const scaled = value << (32n * degree);
  let low = 0n;
  let high = scaled;
  while (high - low > 1n) {
    const middle = (low + high) / 2n;
    if (middle ** degree <= scaled) low = middle;
    else high = middle;
  }
  return Number(low & 0xffffffffn);
}
