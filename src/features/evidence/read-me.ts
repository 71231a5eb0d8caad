import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import Handlebars from "handlebars";

const TEMPLATE = fileURLToPath(
  new URL("../../../templates/documents/readme.txt.hbs", import.meta.url),
);

export interface ReadMe {
  /** What it is the evidence of. */
  title: string;
  /** How many jobs it holds in folders of their own; 0 where it is the record of one. */
  jobs: number;
  /** Entries of the one job's ledger that the bag holds. */
  entries: number;
  /** Of the folders with a ledger, as a pattern of the shell. */
  ledgers: string;
  /** Where the firm's certificates are published. */
  certificates: string;
  /** SHA-256 of the signing certificate. */
  fingerprint: string;
}

const fill = Handlebars.compile<ReadMe>(readFileSync(TEMPLATE, "utf8"), {
  noEscape: true,
  strict: true,
});

/** README.txt of a bag, with the commands that check it; plain text has nothing to escape. */
export const readMeText = (values: ReadMe): string => fill(values);
