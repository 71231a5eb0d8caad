import type { ProjectFile } from "./project-files.ts";
import {
  chainOf,
  child,
  children,
  finding,
  isCode,
  nameOf,
  type SyntaxNode,
  syntaxOf,
  walk,
} from "./syntax.ts";

const GLOBALS = [
  ...["process", "Buffer", "performance", "fetch", "require"],
  ...["setTimeout", "setInterval", "setImmediate"],
];
const CHAINS = [
  ...["Date.now", "Math.random", "Temporal.Now"],
  ...["crypto.randomUUID", "crypto.getRandomValues"],
];

function domainFiles(files: readonly ProjectFile[]): ProjectFile[] {
  return files.filter(({ path }) => path.startsWith("src/domain/") && isCode(path));
}

/**
 * The domain has no clock, chance, network, timer or Node global (imports are held by the layers).
 * Limit: a variable of its own named like a global is taken for it; it wants another name anyway.
 */
export function checkDomainPurity(files: readonly ProjectFile[]): string[] {
  return domainFiles(files).flatMap((file) => {
    const found: string[] = [];
    walk(syntaxOf(file), (node, [parent]) => {
      const impure = impurity(node, parent);
      if (impure)
        found.push(finding(file, node, `${impure} in the domain; take it as an argument`));
    });
    return found;
  });
}

function impurity(node: SyntaxNode, parent: SyntaxNode | undefined): string | undefined {
  const chain = node.type === "MemberExpression" ? chainOf(node).join(".") : "";
  const plain = chain.replace(/^globalThis\./, "");
  if (CHAINS.includes(plain) || (plain !== chain && GLOBALS.includes(plain))) return chain;
  const callee = nameOf(child(node, "callee"));
  if (callee === "Date") return node.type === "NewExpression" ? "new Date" : "Date()";
  if (node.type !== "Identifier" || !GLOBALS.includes(String(node.name))) return undefined;
  return isReference(node, parent) ? String(node.name) : undefined;
}

/** Whether an identifier stands for a value, and is not the name of a member. */
function isReference(node: SyntaxNode, parent: SyntaxNode | undefined): boolean {
  if (!parent || parent.computed === true || parent.shorthand === true) return true;
  return parent.property !== node && parent.key !== node;
}

/** Every exported function of the domain has a docstring: shapes, units, errors, source. */
export function checkDocstrings(files: readonly ProjectFile[]): string[] {
  return domainFiles(files).flatMap((file) => {
    const program = syntaxOf(file);
    const documented = new Set<string>();
    const bare = new Map<string, SyntaxNode>();
    for (const [name, node] of exportedFunctions(program)) {
      if (/\/\*\*(?:(?!\*\/)[\s\S])*\*\/\s*$/.test(file.text.slice(0, node.start))) {
        documented.add(name);
      } else bare.set(name, node);
    }
    return [...bare]
      .filter(([name]) => !documented.has(name))
      .map(([name, node]) => finding(file, node, `exported function ${name} has no docstring`));
  });
}

/** Exported functions by name with the statement before which the docstring stands. */
function exportedFunctions(program: SyntaxNode): [string, SyntaxNode][] {
  const statements = children(program, "body");
  const direct = statements.filter(({ type }) => /^Export(?:Named|Default)/.test(type));
  const listed = new Set(
    direct
      .filter((node) => !child(node, "source"))
      .flatMap((node) => children(node, "specifiers"))
      .map((specifier) => nameOf(child(specifier, "local"))),
  );
  const later = statements.flatMap((node) =>
    functionsIn(node)
      .filter((name) => listed.has(name))
      .map((name): [string, SyntaxNode] => [name, node]),
  );
  const now = direct.flatMap((node) =>
    functionsIn(child(node, "declaration")).map((name): [string, SyntaxNode] => [name, node]),
  );
  return [...now, ...later];
}

function functionsIn(node: SyntaxNode | undefined): string[] {
  if (/Function/.test(node?.type ?? "")) return [nameOf(child(node, "id")) ?? "default"];
  return children(node, "declarations")
    .filter((declared) => /Function/.test(child(declared, "init")?.type ?? ""))
    .flatMap((declared) => nameOf(child(declared, "id")) ?? []);
}

/** A domain file opens with a comment: the requirement that it enforces and where it comes from. */
export function checkDomainOpenings(files: readonly ProjectFile[]): string[] {
  return domainFiles(files)
    .filter(({ text }) => !/^\s*(?:\/\/[^\S\n]*\S|\/\*+\s*[^\s*/])/.test(text))
    .map(({ path }) => `${path}:1: opens with no word on its requirement and where it comes from`);
}
