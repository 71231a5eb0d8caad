// What a backup takes from the data folder: the keys and notes that lie in it, files of imports
// that wait, and every photo and document that the database names. Left out is what is made anew or
// lies in the database as well: bags for download, mails as files, photos that are half received.
import { readdir } from "node:fs/promises";
import { join, relative, sep } from "node:path";
import type { KeptFile } from "../../db/backup/snapshot.ts";
import { pathOfFile } from "../../features/photos/folder.ts";
import { FOLDER } from "./format.ts";

const STAGED = ["imports"];

/** Names of the files beside the database, as the backup calls them. */
export async function* listFolder(dataFolder: string): AsyncGenerator<string> {
  for (const entry of await readdir(dataFolder, { withFileTypes: true })) {
    if (entry.isFile()) yield `${FOLDER}${entry.name}`;
    if (!entry.isDirectory() || !STAGED.includes(entry.name)) continue;
    const inside = { recursive: true, withFileTypes: true } as const;
    for (const file of await readdir(join(dataFolder, entry.name), inside)) {
      if (file.isFile()) yield nameOf(dataFolder, join(file.parentPath, file.name));
    }
  }
}

export const keptName = (dataFolder: string, { firmId, sha256 }: KeptFile): string =>
  nameOf(dataFolder, pathOfFile(dataFolder, { firmId, sha256 }));

const nameOf = (dataFolder: string, path: string): string =>
  `${FOLDER}${relative(dataFolder, path).split(sep).join("/")}`;

export const pathOf = (dataFolder: string, name: string): string =>
  join(dataFolder, ...name.slice(FOLDER.length).split("/"));
