import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import type { RandomAccess } from "../verify/random-access.ts";

export async function openFile(path: string): Promise<RandomAccess> {
  const { size } = await stat(path);
  return {
    ...{ name: path, size },
    read: (start, end) => createReadStream(path, { start, end: end - 1 }),
  };
}
