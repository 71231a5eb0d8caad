import { stat } from "node:fs/promises";
import { say } from "../language/say.ts";
import { type BagReport, checkBag } from "../verify/bag.ts";
import type { BagSource } from "../verify/bag-source.ts";
import { openZip } from "../verify/zip.ts";
import { openFile } from "./verify-file.ts";
import { openFolder } from "./verify-folder.ts";
import { sumsOf } from "./verify-sums.ts";

/**
 * Checks an evidence bag: a ZIP file or a folder.
 * @param trusted the firm's certificates as PEM, got another way; without them the bag vouches for
 *   its key itself
 * @param roots those of the time-stamp service, likewise
 */
export const verifyBag = async (
  path: string,
  trusted?: string,
  roots?: string,
): Promise<SaidReport> => {
  const report = await checkBag(await openBag(path), {
    sumsOf,
    ...(trusted === undefined ? {} : { trusted }),
    ...(roots === undefined ? {} : { roots }),
  });
  const faults = report.faults.map(({ file, code, values }) => ({
    file,
    problem: say("en", `check.fault.${code}`, values),
  }));
  return { ...report, faults };
};

/** With what is wrong as sentences. */
export type SaidReport = Omit<BagReport, "faults"> & {
  faults: { file: string; problem: string }[];
};

const openBag = async (path: string): Promise<BagSource> =>
  (await stat(path)).isDirectory() ? openFolder(path) : openZip(await openFile(path));
