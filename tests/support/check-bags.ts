// A folder as the kind of ZIP file that bags are sent in.
import { createReadStream } from "node:fs";
import { join } from "node:path";
import { buffer } from "node:stream/consumers";
import { type BagFile, newSums } from "../../src/features/evidence/bag-streams.ts";
import { zipBag } from "../../src/features/evidence/bag-zip.ts";
import { filesIn } from "./evidence-tampering.ts";

export const folderAsZip = (folder: string): Promise<Buffer> =>
  buffer(zipBag("EV", filesOf(folder), newSums()));

async function* filesOf(folder: string): AsyncGenerator<BagFile> {
  for (const name of filesIn(folder)) {
    yield { name, open: async () => createReadStream(join(folder, name)) };
  }
}
