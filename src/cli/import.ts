import { createReadStream, createWriteStream } from "node:fs";
import { basename } from "node:path";
import { pipeline } from "node:stream/promises";
import { parseArgs } from "node:util";
import { type FirmTransaction, inFirm } from "../db/scope.ts";
import { confirmImport } from "../features/imports/decide-import.ts";
import { requireImport } from "../features/imports/import-state.ts";
import { receiveFile } from "../features/imports/receive-file.ts";
import { rejectsOf } from "../features/imports/rejects.ts";
import { listBadRows } from "../features/imports/rows-store.ts";
import { IMPORT_KINDS, NewImport } from "../features/imports/schemas.ts";
import { startDryRun } from "../features/imports/start-dry-run.ts";
import { addImport, type ImportRow } from "../features/imports/store.ts";
import type { Desk } from "../features/imports/task.ts";
import { workOn } from "../features/imports/work.ts";
import { findPersonByEmail } from "../features/session/store.ts";
import { withDatabase } from "./database.ts";

const BAD_SHOWN = 20;
const USAGE =
  "Say: import KIND FILE --as ADDRESS [--column NAME=FIELD]… [--set FIELD=VALUE]… " +
  `[--dry-run] [--leave-bad] [--rejects FILE]; KIND is one of ${IMPORT_KINDS.join(", ")}.`;

/**
 * Tries a file, tells of every bad row, and imports it: all of it, or with --leave-bad the rest.
 */
export async function importTable(args: string[]): Promise<void> {
  const { kind, file, values } = readArguments(args);
  await withDatabase(async (db, { dataFolder }) => {
    const person = await findPersonByEmail(db, values.as);
    if (!person?.active || !person.roles.some((role) => role === "owner" || role === "office")) {
      throw new Error(`Nobody who may import has the address ${values.as}.`);
    }
    const { firmId, id: personId } = person;
    const onFault = (error: unknown) => console.error(error);
    const desk: Desk = { db, dataFolder, firmId, now: () => new Date(), onFault };
    const inside = <T>(work: (tx: FirmTransaction) => Promise<T>) => inFirm(db, firmId, work);
    const begun = NewImport.parse({ kind, fileName: basename(file) });
    const { id } = await inside((tx) => addImport(tx, { ...begun, personId }, desk.now()));
    const sent = await receiveFile(desk, id, createReadStream(file));
    await startDryRun(desk, id, wishOf(sent, values), desk.now());
    await workOn(desk, id);
    const tried = await inside((tx) => requireImport(tx, id));
    requireGood(tried, "checked");
    tell("Dry run", tried);
    const bad = await inside((tx) => listBadRows(tx, id, { after: 0, most: BAD_SHOWN }));
    for (const { line, reason } of bad) console.log(`line ${line}: ${reason}`);
    if (values.rejects !== undefined && bad.length > 0) {
      await pipeline(rejectsOf(db, firmId, tried), createWriteStream(values.rejects));
      console.log(`All bad rows are in ${values.rejects}`);
    }
    if (values["dry-run"]) return;
    await inside((tx) => confirmImport(tx, id, values["leave-bad"] ? "leave" : "refuse"));
    await workOn(desk, id);
    const done = await inside((tx) => requireImport(tx, id));
    requireGood(done, "imported");
    tell("Imported", done);
  });
}

function readArguments(args: string[]) {
  const { values, positionals } = parseArgs({
    args,
    options: {
      as: { type: "string" },
      column: { type: "string", multiple: true, default: [] },
      set: { type: "string", multiple: true, default: [] },
      rejects: { type: "string" },
      "dry-run": { type: "boolean", default: false },
      "leave-bad": { type: "boolean", default: false },
    },
    allowPositionals: true,
  });
  const [kind, file] = positionals;
  const { as } = values;
  if (kind === undefined || file === undefined || as === undefined) throw new Error(USAGE);
  if (!IMPORT_KINDS.some((name) => name === kind)) throw new Error(USAGE);
  return { kind, file, values: { ...values, as } };
}

/** Columns as suggested, but for those that are named. */
function wishOf(row: ImportRow, { column, set }: { column: string[]; set: string[] }) {
  const named = new Map(column.map((text) => parted(text, text.lastIndexOf("="))));
  const constants = Object.fromEntries(set.map((text) => parted(text, text.indexOf("="))));
  const columns = (row.columns as (string | null)[]).map((field, index) => {
    const header = (row.headers as string[])[index] ?? "";
    const isTaken = [...named.values(), ...Object.keys(constants)].includes(field ?? "");
    return named.get(header) ?? (isTaken ? null : field);
  });
  return { columns, constants };
}

function parted(text: string, at: number): [string, string] {
  if (at < 1) throw new Error(`${text} has no “=” in it. ${USAGE}`);
  return [text.slice(0, at), text.slice(at + 1)];
}

function requireGood({ state, problem }: ImportRow, wanted: string): void {
  if (state !== wanted) throw new Error(problem ?? `The import is ${state}.`);
}

const tell = (what: string, { figures }: ImportRow): void => {
  const counts = Object.entries(figures as object).map(([name, count]) => `${count} ${name}`);
  console.log(`${what}: ${counts.join(", ")}`);
};
