// A bag as one ZIP file, as it is made: stored, names in order, one fixed time, so that the same
// record gives the same bytes.
import { type PassThrough, pipeline, type Readable } from "node:stream";
import { ZipFile } from "yazl";
import { type BagFile, type BagSums, summing } from "./bag-streams.ts";

/** The first moment that a ZIP file can name; read by the local calendar, as ZIP does. */
const FIXED_TIME = new Date(1980, 0, 1);
const OPTIONS = { compress: false, mtime: FIXED_TIME, mode: 0o100644, forceDosTimestamp: true };

/**
 * @param folder the bag's one folder in the ZIP file (RFC 8493, 4)
 * @param files in the order in which they stand in it
 * @param sums takes the checksums of the files as they pass
 */
export function zipBag(folder: string, files: readonly BagFile[], sums: BagSums): Readable {
  const zip = new ZipFile();
  const output = zip.outputStream as PassThrough;
  let current: Readable | undefined;
  // A reader that goes away must not leave a file open behind it.
  output.on("close", () => current?.destroy());
  zip.on("error", (error: Error) => output.destroy(error));
  for (const file of files) {
    const options = file.size === undefined ? OPTIONS : { ...OPTIONS, size: file.size };
    zip.addReadStreamLazy(`${folder}/${file.name}`, options, (take) => {
      file.open().then(
        (source) => {
          current = source;
          const passing = pipeline(source, summing(file, sums), (error) => {
            if (error) output.destroy(error);
          });
          take(null, passing);
        },
        (error: Error) => output.destroy(error),
      );
    });
  }
  zip.end();
  return output;
}
