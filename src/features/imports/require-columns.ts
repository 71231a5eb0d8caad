import { invalid } from "../../errors.ts";
import { kindOf } from "./kinds.ts";

/** Refuses columns that name no field, or one twice, or leave out what every row needs. */
export function requireColumns(
  kind: string,
  headers: readonly string[],
  columns: readonly (string | null)[],
  constants: Readonly<Record<string, string>>,
): void {
  const { fields } = kindOf(kind);
  const names = new Set(fields.map(({ name }) => name));
  if (columns.length > headers.length) {
    throw invalid("/body/columns", `The file has ${headers.length} columns.`);
  }
  const used = columns.filter((field) => field !== null);
  for (const [index, field] of columns.entries()) {
    if (field === null) continue;
    if (!names.has(field)) throw invalid(`/body/columns/${index}`, `There is no field ${field}.`);
    if (columns.indexOf(field) !== index) {
      throw invalid(`/body/columns/${index}`, `${field} has another column already.`);
    }
  }
  for (const field of Object.keys(constants)) {
    const pointer = `/body/constants/${field}`;
    if (!names.has(field)) throw invalid(pointer, `There is no field ${field}.`);
    if (used.includes(field)) throw invalid(pointer, `${field} has a column of its own.`);
  }
  const told = new Set([...used, ...Object.keys(constants)]);
  const lacking = fields.filter(
    ({ name, requirement }) => requirement === "key" && !told.has(name),
  );
  if (lacking.length === 0) return;
  const list = lacking.map(({ name }) => name).join(", ");
  throw invalid("/body/columns", `Every row needs ${list}: say which column holds it.`);
}
