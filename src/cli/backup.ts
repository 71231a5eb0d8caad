import { once } from "node:events";
import { createWriteStream, existsSync } from "node:fs";
import { rename, rm, writeFile } from "node:fs/promises";
import { basename, join } from "node:path";
import { finished, pipeline } from "node:stream/promises";
import { parseArgs } from "node:util";
import { noteBackup } from "../backups-made.ts";
import { openAsOwner } from "../db/owner-address.ts";
import { readSecrets } from "../secrets.ts";
import type { End } from "./backup/format.ts";
import { makeBackup } from "./backup/make-backup.ts";
import { megabytes, tellingProgress } from "./backup/progress.ts";
import { isSealing, type Keys, makeKey, seal } from "./backup/seal.ts";
import { ArchiveWriter } from "./backup/write-archive.ts";
import { cliConfig } from "./database.ts";

/** Writes one file of everything, beside a service that goes on working. */
export async function backup(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    options: {
      "passphrase-file": { type: "string" },
      "key-file": { type: "string" },
      recipient: { type: "string" },
    },
    allowPositionals: true,
  });
  const [target, ...more] = positionals;
  if (target === undefined || more.length > 0) {
    throw new Error("Say: backup FILE, or backup - to write to the standard output.");
  }
  const keys: Keys = {
    passphraseFile: values["passphrase-file"],
    keyFile: values["key-file"],
    recipient: values.recipient,
  };
  if (keys.passphraseFile && (keys.keyFile || keys.recipient)) {
    throw new Error("Encrypt with a passphrase or with a key, not with both.");
  }
  await backupTo(target, keys);
}

async function backupTo(target: string, keys: Keys): Promise<void> {
  const config = cliConfig();
  const { dataFolder } = config;
  if (!config.DATABASE_URL && !existsSync(join(dataFolder, "database", "cluster"))) {
    throw new Error(
      `There is nothing to back up in ${dataFolder}. Is DATA_DIR set as it should be?`,
    );
  }
  const owner = await openAsOwner(config, readSecrets(dataFolder));
  try {
    const madeAt = new Date();
    const archive = new ArchiveWriter(madeAt);
    const quiet = tellingProgress(() => `${megabytes(archive.bytes)} so far`);
    const written = writeOut(target, archive, keys);
    const made = makeBackup({ ownerUrl: owner.ownerUrl, home: config }, archive, madeAt);
    // Whichever fails first ends the other.
    made.catch((error: Error) => archive.fail(error));
    const [end] = await Promise.all([made, written]).finally(quiet);
    await noteBackup(dataFolder, {
      at: madeAt.toISOString(),
      name: basename(target),
      bytes: end.bytes,
      files: end.files,
      missing: end.missing.length,
      encrypted: isSealing(keys),
    });
    tell(target, end, keys);
  } finally {
    await owner.close();
  }
}

async function writeOut(target: string, archive: ArchiveWriter, keys: Keys): Promise<void> {
  const bytes = isSealing(keys) ? await seal(archive.output, keys) : archive.output;
  if (target === "-") {
    for await (const chunk of bytes) {
      if (!process.stdout.write(chunk)) await once(process.stdout, "drain");
    }
    return;
  }
  // Half a backup never bears the name of a whole one.
  const unfinished = `${target}.unfinished`;
  try {
    const file = createWriteStream(unfinished, { mode: 0o600, flush: true });
    await pipeline(bytes, file);
    await finished(file);
    await rename(unfinished, target);
  } finally {
    await rm(unfinished, { force: true });
  }
}

function tell(target: string, end: End, keys: Keys): void {
  const rows = Object.values(end.rows).reduce((sum, count) => sum + count, 0);
  const where = target === "-" ? "the standard output" : target;
  console.error(`${where}: ${rows} rows and ${end.files} photos and documents.`);
  if (!isSealing(keys)) {
    console.error(
      "It is not encrypted and holds this installation's keys: keep it as safe as them.",
    );
  }
  if (end.missing.length === 0) return;
  throw new Error(
    `The backup is whole, but the data folder is not: ${end.missing.length} files that the ` +
      `database names are missing there or damaged, beginning with ${end.missing[0]}.`,
  );
}

/** Makes a key file; the public part in it is enough to make backups. */
export async function makeBackupKey(args: string[]): Promise<void> {
  const { positionals } = parseArgs({ args, allowPositionals: true });
  const [path, ...more] = positionals;
  if (path === undefined || more.length > 0) throw new Error("Say: backup-key FILE.");
  const { text, recipient } = await makeKey();
  await writeFile(path, text, { mode: 0o600, flag: "wx", flush: true });
  console.log(`${path} opens the backups; keep it away from the server, and a copy elsewhere.`);
  console.log(`On the server this is enough: backup FILE --recipient ${recipient}`);
}
