import { posix } from "node:path";
import type { ProjectFile } from "./project-files.ts";
import { child, finding, isCode, type SyntaxNode, syntaxOf, walk } from "./syntax.ts";

/** One import: `file` holds the project's path it leads to, or `package` the package's name. */
export type Import = {
  file?: string;
  package?: string;
  typeOnly: boolean;
  /** Says a finding about this import. */
  report: (problem: string) => string;
};

const known = new WeakMap<ProjectFile, Import[]>();

/**
 * What a file imports: import and export … from, import(…) and import types, if the text is fixed.
 * Limits: a computed import(…), require and new URL(…, import.meta.url) are not seen, and
 * `import { type A }` counts as a value, as Node loads the file for it.
 */
export function importsOf(file: ProjectFile): Import[] {
  if (!isCode(file.path)) return [];
  const before = known.get(file);
  if (before) return before;
  const found: Import[] = [];
  walk(syntaxOf(file), (node) => {
    const target = child(node, "source");
    if (!LOADING.has(node.type) || typeof target?.value !== "string") return;
    found.push({
      ...resolve(file.path, target.value),
      typeOnly: isTypeOnly(node),
      report: (problem) => finding(file, node, problem),
    });
  });
  known.set(file, found);
  return found;
}

const LOADING = new Set([
  "ImportDeclaration",
  "ExportNamedDeclaration",
  "ExportAllDeclaration",
  "ImportExpression",
  "TSImportType",
]);

function isTypeOnly(node: SyntaxNode): boolean {
  return [node.importKind, node.exportKind].includes("type") || node.type === "TSImportType";
}

function resolve(from: string, target: string): { file: string } | { package: string } {
  if (target.startsWith(".")) return { file: posix.join(posix.dirname(from), target) };
  if (target.startsWith("node:")) return { package: target };
  const parts = target.split("/");
  return { package: parts.slice(0, target.startsWith("@") ? 2 : 1).join("/") };
}
