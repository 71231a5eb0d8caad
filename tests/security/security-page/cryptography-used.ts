// What each file calls of cryptography, read off its text: the algorithms are named where they are
// used, so that the inventory of docs/security.md can be held against them.
import type { ProjectFile } from "../../tidy/project-files.ts";

/** Algorithm by how a call of it looks. */
const CALLS: readonly (readonly [string, RegExp])[] = [
  ["SHA-256", /createHash\("sha256"\)|digest\("SHA-256"|\bsha256[(:]|, "SHA-256"\)/],
  ["SHA-512", /createHash\("sha512"\)|digest\("SHA-512"|\bsha512[(:]/],
  ["HMAC-SHA-256", /createHmac\("sha256"|"HS256"/],
  ["HMAC-SHA-1", /algorithm: "SHA1"/],
  ["HKDF-SHA-256", /hkdfSync\("sha256"/],
  ["AES-256-GCM", /"aes-256-gcm"/],
  ["argon2id", /from "@node-rs\/argon2"/],
  ["ECDSA P-256", /namedCurve: "P-256"/],
  ["CMS", /from "pkijs"/],
  ["age", /from "age-encryption"/],
  ["random", /randomBytes\(|randomUUID\(|getRandomValues\(|new Secret\(/],
];

/** Whatever could call an algorithm at all, named or not. */
const PACKAGES = [
  ...["node:crypto", "@node-rs/argon2", '@noble/hashes[^"]*', "age-encryption", "otpauth", "pkijs"],
  "@fastify/jwt",
];
const DOORS = new RegExp(
  `from "(?:${PACKAGES.join("|")})"|crypto\\.subtle|create(?:Hash|Hmac|Cipher)`,
);

export interface Used {
  path: string;
  algorithms: string[];
}

export const cryptographyUsed = (files: readonly ProjectFile[]): Used[] =>
  files
    .filter(({ path, text }) => /^src\/(?!db\/generated\/).*\.ts$/.test(path) && DOORS.test(text))
    .map(({ path, text }) => ({
      path,
      algorithms: CALLS.filter(([, call]) => call.test(text)).map(([name]) => name),
    }));
