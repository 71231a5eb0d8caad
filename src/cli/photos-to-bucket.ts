import { createHash } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import type { FileName } from "../features/photos/file-storage.ts";
import { fileStorage } from "../features/photos/files.ts";
import { tellingProgress } from "./backup/progress.ts";
import { cliConfig } from "./database.ts";

const IS_HASH = /^[0-9a-f]{64}$/;

/** What is in the bucket already is passed over, and nothing is taken away from the folder. */
export async function photosToBucket(): Promise<void> {
  const { dataFolder, PHOTO_BUCKET_URL } = cliConfig();
  if (!PHOTO_BUCKET_URL) throw new Error("Set PHOTO_BUCKET_URL to the bucket they go into.");
  const bucket = fileStorage({ dataFolder, PHOTO_BUCKET_URL });
  let there = 0;
  const damaged: string[] = [];
  const quiet = tellingProgress(() => `${there} are in the bucket`);
  try {
    for await (const { name, path } of filesIn(join(dataFolder, "photos"))) {
      const bytes = await readFile(path);
      if (createHash("sha256").update(bytes).digest("hex") !== name.sha256) damaged.push(path);
      else {
        await bucket.keep(name, bytes);
        there += 1;
      }
    }
  } finally {
    quiet();
  }
  console.log(`${there} photos and documents of ${dataFolder} are in the bucket.`);
  if (damaged.length === 0) return;
  throw new Error(`Left out, as their bytes are not those of their name:\n${damaged.join("\n")}`);
}

async function* filesIn(folder: string): AsyncGenerator<{ name: FileName; path: string }> {
  for (const firmId of await readdir(folder).catch(() => [])) {
    for (const first of await readdir(join(folder, firmId))) {
      for (const sha256 of await readdir(join(folder, firmId, first))) {
        const path = join(folder, firmId, first, sha256);
        if (IS_HASH.test(sha256)) yield { name: { firmId, sha256 }, path };
      }
    }
  }
}
