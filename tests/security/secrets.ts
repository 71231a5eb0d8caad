// Secrets that slipped into a file of the project: by the form that the issuers of keys give them,
// and by chance-like signs that no word or address has. Forms: from memory of the issuers' pages.
import type { ProjectFile } from "../tidy/project-files.ts";

// Pieces in brackets keep this file from finding itself.
const FORMS: readonly [RegExp, string][] = [
  [/-----BEGI[N] (?:[A-Z]+ )*PRIVATE KE[Y]-----/, "a private key"],
  [/\bey[J][\w-]{10,}\.ey[J][\w-]{10,}\.[\w-]{10,}/, "a signed token (RFC 7519)"],
  [/\b(?:AK|AS)I[A][0-9A-Z]{16}\b/, "a cloud access key"],
  [/\bgh[opsru]_\w{36,}|\bgithub_pa[t]_\w{20,}|\bglpa[t]-[\w-]{20,}/, "a forge's access token"],
  [/\bnpm[_][A-Za-z0-9]{36}\b/, "a package registry's token"],
  [/\bxox[abprs]-[\w-]{10,}/, "a chat service's token"],
  [/\bAIz[a][\w-]{35}\b/, "an interface key"],
  [/\b[sr]k_(?:live|test)[_]\w{16,}/, "a payment service's key"],
  [/\bwhse[c]_[A-Za-z0-9+/=]{24,}/, "a webhook's secret"],
  [/\bhp_[\w-]{40,}/, "a key of this service"],
];

const ASSIGNED =
  /(?:pass(?:word|phrase|wd)?|secret|token|api_?key)\w*["']?\s*[:=]\s*(["'`])([^"'`\s${}]{8,})\1/gi;
const IN_ADDRESS = /[a-z][a-z+]*:\/\/[^\s/:@"'`]+:([^\s/@"'`]+)@/gi;
const CHANCE = /(?<![\w+/=.-])[\w+/=-]{24,}(?![\w+/=-])/g;
const CHANCE_BITS = 4.3;

export interface Allowed {
  path: string;
  text: string;
  reason: string;
}

/** What looks like a secret and is none, each with why. */
export const ALLOWED: readonly Allowed[] = [
  {
    path: "tests/features/webhooks.test.ts",
    text: ["whse", "c_MfKQ9r8GKYqr", "TwjUPD8ILPZIo2LaLaSw"].join(""),
    reason: "the worked example of Standard Webhooks 1.0",
  },
  {
    path: "tests/features/webhooks.test.ts",
    text: ["msg_p5jXN8AQM9", "LWM0D4loKWxJek"].join(""),
    reason: "the message's id in the same example",
  },
  {
    path: "tests/features/webhooks.test.ts",
    text: ["g0hM9SsE+OTPJTGt/", "tmIKtSyZlE3uF", "JELVlNIOLJ1OE="].join(""),
    reason: "the signature in the same example",
  },
  {
    path: "tests/features/two-step.test.ts",
    text: ["GEZDGNBVGY3TQOJQ", "GEZDGNBVGY3TQOJQ"].join(""),
    reason: "the secret of RFC 6238, appendix B",
  },
  {
    path: "tests/features/evidence-time-stamps.test.ts",
    text: "tagmanifest-sha256.txt.p7s.tsr",
    reason: "a file's name: the token of a time stamp",
  },
];

/** Hashes of locked packages are public and look like chance; checked by dependencies.ts. */
const NOT_READ = new Set(["package-lock.json"]);

/** `path:line: what` for everything that looks like a secret and is not allowed. */
export function checkSecrets(
  files: readonly ProjectFile[],
  allowed: readonly Allowed[] = ALLOWED,
): string[] {
  return files
    .filter(({ path }) => !NOT_READ.has(path))
    .flatMap(({ path, text }) => {
      const fine = allowed.filter((entry) => entry.path === path).map((entry) => entry.text);
      return text.split("\n").flatMap((line, index) =>
        secretsIn(line, path.startsWith("tests/"))
          .filter(([found]) => !fine.includes(found))
          .map(([, what]) => `${path}:${index + 1}: ${what}`),
      );
    });
}

function secretsIn(line: string, isTest: boolean): [string, string][] {
  const found: [string, string][] = [];
  for (const [form, what] of FORMS) {
    const match = form.exec(line);
    if (match) found.push([match[0], what]);
  }
  for (const [, , value] of line.matchAll(ASSIGNED)) {
    if (value && isTelling(value)) found.push([value, "a password or token in the text"]);
  }
  for (const [, password] of line.matchAll(IN_ADDRESS)) {
    // A test's own server takes the password that the test made up.
    if (password && !isTest && !/^[$<{…*]/.test(password)) {
      found.push([password, "a password in an address"]);
    }
  }
  for (const [text] of line.matchAll(CHANCE)) {
    if (isMixed(text) && bitsPerSign(text) >= CHANCE_BITS) found.push([text, "chance-like signs"]);
  }
  return found;
}

/** Letters alone are mostly a label or a name, so a password of letters alone is not told. */
const isTelling = (value: string): boolean => !/^[\p{L}_.-]+$/u.test(value);
const isMixed = (text: string): boolean =>
  /[a-z]/.test(text) && /[A-Z]/.test(text) && /\d/.test(text);

/** Shannon's entropy of the text's own signs. */
function bitsPerSign(text: string): number {
  const counts = new Map<string, number>();
  for (const sign of text) counts.set(sign, (counts.get(sign) ?? 0) + 1);
  let bits = 0;
  for (const count of counts.values()) {
    bits -= (count / text.length) * Math.log2(count / text.length);
  }
  return bits;
}
