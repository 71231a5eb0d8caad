import { createReadStream } from "node:fs";
import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { fault } from "../domain/evidence/bag-fault.ts";
import type { BagSource } from "../verify/bag-source.ts";

/** A bag as it lies in a folder. */
export async function openFolder(folder: string): Promise<BagSource> {
  const names: string[] = [];
  const odd: string[] = [];
  const visit = async (path: string): Promise<void> => {
    for (const entry of await readdir(join(folder, path), { withFileTypes: true })) {
      const name = path === "" ? entry.name : `${path}/${entry.name}`;
      if (entry.isDirectory()) await visit(name);
      else (entry.isFile() ? names : odd).push(name);
    }
  };
  await visit("");
  return {
    names: names.sort(),
    faults: odd.map((file) => fault(file, "no-ordinary-file")),
    open: (name) => createReadStream(join(folder, name)),
  };
}
