import type { Readable } from "node:stream";
import { Problem } from "../../errors.ts";
import type { FileName } from "./file-storage.ts";
import { type FilesHome, fileStorage } from "./files.ts";

/** The file that a row names, looked for before the reply begins: one that is gone is told. */
export async function openKept(home: FilesHome, name: FileName): Promise<Readable> {
  const storage = fileStorage(home);
  if ((await storage.size(name)) !== undefined) return storage.open(name);
  const detail = "The file is not where photos and documents are kept. Restore it from a backup.";
  throw new Problem("evidence-damaged", detail);
}
