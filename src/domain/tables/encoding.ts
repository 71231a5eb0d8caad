// Requirement: a table saved by whatever program comes in with the letters that were meant. The
// byte-order mark is that of the Unicode Standard, section 23.8; the names are labels of the WHATWG
// Encoding Standard.

export const ENCODINGS = ["utf-8", "utf-16le", "utf-16be", "windows-1252"] as const;
export type Encoding = (typeof ENCODINGS)[number];

/** So many bytes from the beginning are enough to tell. */
export const ENCODING_SAMPLE_BYTES = 2000;
/** In UTF-16 every Latin letter has one zero byte; this share of them tells it without a mark. */
const ZEROS_LEAST = 0.3;
const ZEROS_OTHERWISE_MOST = 0.05;

/**
 * The encoding of a text file.
 * @param beginning its first bytes, ENCODING_SAMPLE_BYTES of them if there are so many
 * @param isUtf8 whether the whole file is well-formed UTF-8
 */
export function guessEncoding(beginning: Uint8Array, isUtf8: boolean): Encoding {
  const [first, second, third] = beginning;
  if (first === 0xff && second === 0xfe) return "utf-16le";
  if (first === 0xfe && second === 0xff) return "utf-16be";
  if (first === 0xef && second === 0xbb && third === 0xbf) return "utf-8";
  const sample = beginning.subarray(0, ENCODING_SAMPLE_BYTES);
  const [even, odd] = [zerosAt(sample, 0), zerosAt(sample, 1)];
  if (odd >= ZEROS_LEAST && even <= ZEROS_OTHERWISE_MOST) return "utf-16le";
  if (even >= ZEROS_LEAST && odd <= ZEROS_OTHERWISE_MOST) return "utf-16be";
  return isUtf8 ? "utf-8" : "windows-1252";
}

/** The share of zeros among the bytes at even (0) or odd (1) places. */
function zerosAt(bytes: Uint8Array, parity: 0 | 1): number {
  let zeros = 0;
  for (let place = parity; place < bytes.length; place += 2) if (bytes[place] === 0) zeros += 1;
  return zeros / Math.max(1, Math.floor(bytes.length / 2));
}
