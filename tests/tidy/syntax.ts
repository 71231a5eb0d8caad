import { parseAst } from "vitest/node";
import type { ProjectFile } from "./project-files.ts";

/** A node of the ESTree that vitest's own parser gives, TypeScript included. */
export type SyntaxNode = { type: string; start: number; end: number; [field: string]: unknown };

const parsed = new WeakMap<ProjectFile, SyntaxNode>();

/** The syntax tree of a TypeScript or JavaScript file; a file that does not parse throws. */
export function syntaxOf(file: ProjectFile): SyntaxNode {
  const known = parsed.get(file);
  if (known) return known;
  try {
    const tree = parseAst(file.text, { lang: "ts", sourceType: "module" }, file.path);
    const program = tree as unknown as SyntaxNode;
    parsed.set(file, program);
    return program;
  } catch (error) {
    throw new Error(`${file.path} does not parse: ${String(error)}`);
  }
}

/** Calls `visit` with every node and the nodes around it, the nearest first. */
export function walk(
  root: SyntaxNode,
  visit: (node: SyntaxNode, around: readonly SyntaxNode[]) => void,
  around: readonly SyntaxNode[] = [],
): void {
  visit(root, around);
  const inside = [root, ...around];
  for (const value of Object.values(root)) {
    for (const child of Array.isArray(value) ? value : [value]) {
      if (isNode(child)) walk(child, visit, inside);
    }
  }
}

export function isNode(value: unknown): value is SyntaxNode {
  return typeof value === "object" && value !== null && "type" in value && "start" in value;
}

/** The child node in a field, if there is one. */
export function child(node: SyntaxNode | undefined, field: string): SyntaxNode | undefined {
  const value = node?.[field];
  return isNode(value) ? value : undefined;
}

/** The child nodes in a list field. */
export function children(node: SyntaxNode | undefined, field: string): SyntaxNode[] {
  const value = node?.[field];
  return Array.isArray(value) ? value.filter(isNode) : [];
}

/** The name of an identifier, private name or text key; undefined for any other node. */
export function nameOf(node: SyntaxNode | undefined): string | undefined {
  if (node?.type === "Identifier" || node?.type === "PrivateIdentifier") return String(node.name);
  return node?.type === "Literal" && typeof node.value === "string" ? node.value : undefined;
}

/** The names along a chain such as `test.only.each`, outermost object first; empty if computed. */
export function chainOf(node: SyntaxNode | undefined): string[] {
  if (node?.type === "Identifier") return [String(node.name)];
  if (node?.type === "CallExpression") return chainOf(child(node, "callee"));
  if (node?.type !== "MemberExpression" || node.computed === true) return [];
  const object = chainOf(child(node, "object"));
  return object.length === 0 ? [] : [...object, nameOf(child(node, "property")) ?? ""];
}

/** The line, from 1, on which a place in a text stands. */
export function lineAt(text: string, offset: number): number {
  return text.slice(0, offset).split("\n").length;
}

export function isCode(path: string): boolean {
  return /\.(?:ts|mjs|js)$/.test(path) && !isGenerated(path);
}

/** Written by a generator, so nobody's style. */
export function isGenerated(path: string): boolean {
  return path.startsWith("src/db/generated/");
}

/** Data in the shape of code: as long as what it tables. */
export function isTable(path: string): boolean {
  return /(?:^|\/)(?:tables|rule-packs)\//.test(path);
}

/** A finding as people read it: where, then what. */
export function finding(file: ProjectFile, node: { start: number }, problem: string): string {
  return `${file.path}:${lineAt(file.text, node.start)}: ${problem}`;
}
