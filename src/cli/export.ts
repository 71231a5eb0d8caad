import { createWriteStream } from "node:fs";
import { pipeline } from "node:stream/promises";
import { parseArgs } from "node:util";
import { EXPORT_LISTS, EXPORT_NAMES } from "../features/exports/every-list.ts";
import { exportCsv, exportDueCsv, type Taker } from "../features/exports/export-csv.ts";
import { DueCountQuery } from "../features/firmware/due-schemas.ts";
import { findPersonByEmail } from "../features/session/store.ts";
import { withDatabase } from "./database.ts";

const USAGE =
  "Say: export LIST --as ADDRESS [--out FILE] [--filter NAME=VALUE]…; LIST is one of " +
  `${EXPORT_NAMES.join(", ")}.`;

/** Writes a list as CSV to a file, or to the terminal; in somebody's name, who stays on record. */
export async function exportTable(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    options: {
      as: { type: "string" },
      out: { type: "string" },
      filter: { type: "string", multiple: true, default: [] },
    },
    allowPositionals: true,
  });
  const [name] = positionals;
  const address = values.as;
  if (name === undefined || address === undefined || !EXPORT_NAMES.includes(name)) {
    throw new Error(USAGE);
  }
  const filter = Object.fromEntries(values.filter.map(parted));
  await withDatabase(async (db) => {
    const person = await findPersonByEmail(db, address);
    if (!person?.active) throw new Error(`Nobody who may sign in has the address ${address}.`);
    const taker = { db, firmId: person.firmId, personId: person.id, now: new Date() };
    const lines = await linesOf(taker, name, filter);
    if (values.out !== undefined) await pipeline(lines, createWriteStream(values.out));
    else for await (const line of lines) process.stdout.write(line);
  });
}

async function linesOf(taker: Taker, name: string, given: object): Promise<AsyncGenerator<string>> {
  const list = EXPORT_LISTS.find((one) => one.name === name);
  const read = (list?.query ?? DueCountQuery).safeParse(given);
  if (!read.success) {
    const [issue] = read.error.issues;
    throw new Error(`--filter ${issue?.path.join(".")}: ${issue?.message}`);
  }
  return list ? exportCsv(taker, list, read.data) : exportDueCsv(taker, read.data);
}

function parted(text: string): [string, string] {
  const at = text.indexOf("=");
  if (at < 1) throw new Error(`${text} has no “=” in it. ${USAGE}`);
  return [text.slice(0, at), text.slice(at + 1)];
}
