// A bag as one ZIP file, as it is made: stored, one fixed time, so that the same record gives the
// same bytes.
import { type PassThrough, pipeline, type Readable } from "node:stream";

import { type BagFile, type BagSums, summing } from "./bag-streams.ts";
import { ZipFile } from "./zip-file.ts";

/** The first moment that a ZIP file can name; read by the local calendar, as ZIP does. */
const FIXED_TIME = new Date(1980, 0, 1);
const OPTIONS = { compress: false, mtime: FIXED_TIME, mode: 0o100644, forceDosTimestamp: true };

/**
 * @param folder the bag's one folder in the ZIP file (RFC 8493, 4)
 * @param files in the order in which they stand in it
 * @param sums takes the checksums of the files as they pass
 */
export function zipBag(folder: string, files: AsyncIterable<BagFile>, sums: BagSums): Readable {
  const zip = new ZipFile();
  const output = zip.outputStream as PassThrough;
  const state: { current?: Readable; goOn?: () => void } = {};
  // A reader that goes away must not leave a file open behind it, nor its maker waiting.
  output.on("close", () => {
    state.current?.destroy();
    state.goOn?.();
  });
  zip.on("error", (error: Error) => output.destroy(error));
  const pass = (file: BagFile): Promise<void> =>
    new Promise((resolve, reject) => {
      state.goOn = resolve;
      const options = file.size === undefined ? OPTIONS : { ...OPTIONS, size: file.size };
      zip.addReadStreamLazy(`${folder}/${file.name}`, options, (take) => {
        file.open().then((source) => {
          state.current = source;
          const done = (error?: Error | null) => (error ? reject(error) : resolve());
          take(null, pipeline(source, summing(file, sums), done));
        }, reject);
      });
    });
  passAll(files, pass, output).then(
    () => zip.end(),
    (error: Error) => output.destroy(error),
  );
  return output;
}

/** One after the other, so that however many there are, one is at hand at a time. */
async function passAll(
  files: AsyncIterable<BagFile>,
  pass: (file: BagFile) => Promise<void>,
  output: Readable,
): Promise<void> {
  for await (const file of files) {
    if (output.destroyed) return;
    await pass(file);
  }
}
