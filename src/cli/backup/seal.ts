// Encryption is the open format age (age-encryption.org/v1): authenticated in chunks of 64 KB with
// their order and end, so that nothing can be cut, swapped or changed unseen; a passphrase goes
// through scrypt. Any program for that format opens a backup.
import { createReadStream } from "node:fs";
import { open, readFile } from "node:fs/promises";
import { Decrypter, Encrypter, generateIdentity, identityToRecipient } from "age-encryption";
import { DamagedBackup } from "./read-archive.ts";

export interface Keys {
  passphraseFile?: string | undefined;
  keyFile?: string | undefined;
  /** Public part of a key: enough to make a backup, not to read it. */
  recipient?: string | undefined;
}

const MARK = "age-encryption.org/v1";
const READ_BYTES = 256 * 1024;

export const isSealing = (keys: Keys): boolean => Object.values(keys).some(Boolean);

export async function seal(
  bytes: AsyncIterable<Uint8Array>,
  keys: Keys,
): Promise<AsyncIterable<Uint8Array>> {
  const encrypter = new Encrypter();
  if (keys.passphraseFile) encrypter.setPassphrase(await passphraseIn(keys.passphraseFile));
  if (keys.recipient) encrypter.addRecipient(keys.recipient);
  if (keys.keyFile) {
    encrypter.addRecipient(await identityToRecipient(await identityIn(keys.keyFile)));
  }
  return encrypter.encrypt(ReadableStream.from(bytes) as ReadableStream<Uint8Array>);
}

/** The bytes of a backup as they were before it was encrypted, if it was. */
export async function unseal(path: string, keys: Keys): Promise<AsyncIterable<Uint8Array>> {
  const bytes = createReadStream(path, { highWaterMark: READ_BYTES });
  if (!(await isSealed(path))) return bytes;
  if (!keys.passphraseFile && !keys.keyFile) {
    throw new Error(`${path} is encrypted: give --passphrase-file FILE or --key-file FILE.`);
  }
  const decrypter = new Decrypter();
  if (keys.passphraseFile) decrypter.addPassphrase(await passphraseIn(keys.passphraseFile));
  if (keys.keyFile) decrypter.addIdentity(await identityIn(keys.keyFile));
  return opened(() => decrypter.decrypt(ReadableStream.from(bytes) as ReadableStream<Uint8Array>));
}

async function* opened(open: () => Promise<ReadableStream<Uint8Array>>) {
  try {
    yield* await open();
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause);
    if (/no identity matched/.test(why)) {
      throw new Error("The backup does not open with this passphrase or key.", { cause });
    }
    throw new DamagedBackup(`The backup was cut off or altered: ${why}.`, { cause });
  }
}

async function isSealed(path: string): Promise<boolean> {
  const file = await open(path);
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(MARK.length), 0, MARK.length, 0);
    return buffer.toString("latin1", 0, bytesRead) === MARK;
  } finally {
    await file.close();
  }
}

const PASSPHRASE_LEAST = 12;

async function passphraseIn(path: string): Promise<string> {
  const [line = ""] = (await readFile(path, "utf8")).split(/\r?\n/);
  if (line.length < PASSPHRASE_LEAST) {
    throw new Error(`The first line of ${path} is the passphrase: at least 12 characters.`);
  }
  return line;
}

async function identityIn(path: string): Promise<string> {
  const lines = (await readFile(path, "utf8")).split(/\r?\n/);
  const identity = lines.find((line) => line.startsWith("AGE-SECRET-KEY-"));
  if (!identity) throw new Error(`${path} holds no key: make one with backup-key FILE.`);
  return identity;
}

/** A fresh key as its file has it, and its public part. */
export async function makeKey(): Promise<{ text: string; recipient: string }> {
  const identity = await generateIdentity();
  const recipient = await identityToRecipient(identity);
  return { text: `# public part: ${recipient}\n${identity}\n`, recipient };
}
