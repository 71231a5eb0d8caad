import type { ProjectFile } from "./project-files.ts";
import {
  chainOf,
  child,
  isCode,
  isTable,
  lineAt,
  nameOf,
  type SyntaxNode,
  syntaxOf,
  walk,
} from "./syntax.ts";

export const FILE_LINES_MAX = 200;
export const FUNCTION_LINES_MAX = 40;
export const COLUMNS_MAX = 100;

/** Counts of lines by file, or by function as `path#name`. */
export type Lengths = Record<string, number>;

/** The lines of every code file but tables of data. */
export function fileLengths(files: readonly ProjectFile[]): Lengths {
  const measured = files.filter(({ path }) => isCode(path) && !isTable(path));
  return Object.fromEntries(measured.map((file) => [file.path, lineCount(file.text)]));
}

/**
 * The lines of every function from its first to its last, those of functions inside it included;
 * of two with one name in a file the longer counts. Left out are lists in the shape of functions: a
 * test's describe(…), and what registers routes or pages (…Routes, …Pages); their handlers count.
 */
export function functionLengths(files: readonly ProjectFile[]): Lengths {
  const lengths: Lengths = {};
  for (const file of files.filter(({ path }) => isCode(path) && !isTable(path))) {
    walk(syntaxOf(file), (node, around) => {
      if (!FUNCTIONS.has(node.type) || isDescribe(around[0])) return;
      const name = functionName(node, around[0]);
      if (/(?:Routes|Pages)$/.test(name)) return;
      const key = `${file.path}#${name}`;
      const lines = lineAt(file.text, node.end) - lineAt(file.text, node.start) + 1;
      lengths[key] = Math.max(lengths[key] ?? 0, lines);
    });
  }
  return lengths;
}

/**
 * A limit that can only tighten: what is longer must stand in the table with its present length; a
 * table entry that is longer than the thing itself must be lowered, so that it cannot grow again.
 */
export function checkLengths(lengths: Lengths, linesMax: number, table: Lengths): string[] {
  const tooLong = Object.entries(lengths).flatMap(([key, lines]) => {
    const allowed = Math.max(linesMax, table[key] ?? 0);
    return lines > allowed ? [`${key}: ${lines}, at most ${allowed}`] : [];
  });
  const stale = Object.entries(table).flatMap(([key, allowed]) => {
    const lines = lengths[key] ?? 0;
    if (lines >= allowed && lines > linesMax) return [];
    return [`${key}: the table says ${allowed} and it has ${lines}; lower or drop the entry`];
  });
  return [...tooLong, ...stale];
}

/** The table that holds all lengths over a limit as they are. */
export function overLimit(lengths: Lengths, linesMax: number): Lengths {
  const entries = Object.entries(lengths).filter(([, lines]) => lines > linesMax);
  return Object.fromEntries(entries.sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** How many lines wider than COLUMNS_MAX characters a file has, long texts in them included. */
export function wideLines(files: readonly ProjectFile[]): Lengths {
  const measured = files.filter(({ path }) => isCode(path) && !isTable(path));
  const counted = measured.map((file): [string, number] => [file.path, wideIn(file.text)]);
  return Object.fromEntries(counted.filter(([, count]) => count > 0));
}

function wideIn(text: string): number {
  return text.split("\n").filter((line) => [...line].length > COLUMNS_MAX).length;
}

const FUNCTIONS = new Set(["FunctionDeclaration", "FunctionExpression", "ArrowFunctionExpression"]);

function isDescribe(parent: SyntaxNode | undefined): boolean {
  return parent?.type === "CallExpression" && chainOf(parent)[0] === "describe";
}

/** Its own name, or what it is assigned to, or the call that it is handed to. */
function functionName(node: SyntaxNode, parent: SyntaxNode | undefined): string {
  const own = nameOf(child(node, "id")) ?? nameOf(child(parent, "id") ?? child(parent, "key"));
  if (own !== undefined) return own;
  const call = parent?.type === "CallExpression" ? chainOf(parent).join(".") : "";
  return call === "" ? "anonymous" : `${call}(…)`;
}

function lineCount(text: string): number {
  return text.split("\n").length - (text.endsWith("\n") ? 1 : 0);
}
