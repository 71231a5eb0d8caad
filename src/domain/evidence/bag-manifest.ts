// Requirement: a bag lists every file with its checksum, in the form that checksum tools read.
// Source: RFC 8493 (BagIt 1.0), 2.1.1 bagit.txt, 2.1.3 payload manifests, 2.2.1 tag manifests,
// 2.2.2 bag-info.txt.

/** RFC 8493, 2.1.1: exactly these two lines. */
export const BAGIT_TXT = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";

export const BAG_ALGORITHMS = ["sha256", "sha512"] as const;
export type BagAlgorithm = (typeof BAG_ALGORITHMS)[number];

/** Hex digits of each algorithm's checksums. */
const DIGITS: Readonly<Record<BagAlgorithm, number>> = { sha256: 64, sha512: 128 };

export const SIGNED_MANIFEST = "tagmanifest-sha256.txt";
export const SIGNATURE = "tagmanifest-sha256.txt.p7s";
/** The response of a time-stamp service (RFC 3161) to the signature; not every bag has one. */
export const TIME_STAMP = `${SIGNATURE}.tsr`;
/** Root certificates of the time-stamp service, where the operator named them. */
export const TIME_STAMP_ROOTS = "certs/time-stamp.pem";
/** Member of bag-info.txt: the service that was to stamp, whether it answered or not. */
export const TIME_STAMP_SERVICE = "Time-Stamp-Service";
/** What comes after the signature and is covered by the second tag manifest alone. */
export const SEALS: readonly string[] = [SIGNATURE, TIME_STAMP];
/** What the signed tag manifest cannot list: itself, its seals, its twin. */
export const UNLISTED: readonly string[] = [SIGNED_MANIFEST, ...SEALS, "tagmanifest-sha512.txt"];

/** Lower-case letters, digits, dot, hyphen and underscore; README.txt alone is spelled as usual. */
const NAME = /^(?:README\.txt|[a-z0-9_-][a-z0-9._-]*(?:\/[a-z0-9_-][a-z0-9._-]*)*)$/;

/** Whether a path may stand in a bag: relative, without "..", and readable by every system. */
export const isBagName = (name: string): boolean => NAME.test(name);

/** Checksums by path. */
export type Checksums = ReadonlyMap<string, string>;

/**
 * A manifest, one line "checksum, two spaces, path" a file, by path; CR, LF and % in a path by
 * their codes (RFC 8493, 2.1.3), although no name of ours holds any.
 */
export function manifestText(checksums: Checksums): string {
  const lines = [...checksums].map(([name, checksum]) => `${checksum}  ${encoded(name)}\n`);
  return lines.sort((a, b) => (nameIn(a) < nameIn(b) ? -1 : 1)).join("");
}

const encoded = (name: string): string =>
  name.replaceAll("%", "%25").replaceAll("\r", "%0D").replaceAll("\n", "%0A");
const nameIn = (line: string): string => line.slice(line.indexOf("  ") + 2, -1);

/**
 * Reads a manifest as strictly as it is written here: lower-case hex, two spaces, paths in order,
 * each once, a line feed after every line. `problem` names the line.
 */
export function parseManifest(
  text: string,
  algorithm: BagAlgorithm,
): { ok: true; checksums: Checksums } | { ok: false; problem: string } {
  const checksums = new Map<string, string>();
  const lines = text.split("\n");
  if (lines.pop() !== "") return { ok: false, problem: "Its last line has no end." };
  let before = "";
  for (const [index, line] of lines.entries()) {
    const [, checksum, name] = /^([0-9a-f]+) {2}(.+)$/.exec(line) ?? [];
    if (checksum?.length !== DIGITS[algorithm] || name === undefined || !isBagName(name)) {
      return { ok: false, problem: `Line ${index + 1} is no checksum and path.` };
    }
    if (name <= before) return { ok: false, problem: `Line ${index + 1} is out of order.` };
    checksums.set(name, checksum);
    before = name;
  }
  return { ok: true, checksums };
}

/** bag-info.txt: one "Label: value" a line (RFC 8493, 2.2.2); line ends in values become spaces. */
export function bagInfoText(values: Readonly<Record<string, string>>): string {
  const lines = Object.entries(values).map(
    ([label, value]) => `${label}: ${value.replace(/\s+/g, " ").trim()}\n`,
  );
  return lines.join("");
}
