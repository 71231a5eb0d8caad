import type { ProjectFile } from "./project-files.ts";
import {
  chainOf,
  child,
  children,
  finding,
  isCode,
  type SyntaxNode,
  syntaxOf,
  walk,
} from "./syntax.ts";

/** No enum, namespace, decorator or parameter property: Node strips types and makes no code. */
export function checkErasable(files: readonly ProjectFile[]): string[] {
  return each(files, (node) => {
    if (node.type === "TSEnumDeclaration") return "an enum; use an object or a list as const";
    if (node.type === "TSParameterProperty") return "a parameter property; assign it in the body";
    if (children(node, "decorators").length > 0) return "a decorator";
    // `declare module "x"` and `declare global` only add types and stay.
    if (node.type !== "TSModuleDeclaration" || node.kind === "global") return undefined;
    return child(node, "id")?.type === "Literal" ? undefined : "a namespace; use a file";
  });
}

const MAY_PRINT = /^(?:src\/(?:serve\.ts|cli\.ts|cli\/|walkthrough\/)|bench\/|prisma\/)/;

/** The program logs through its logger; only what talks to a terminal uses console. */
export function checkConsole(files: readonly ProjectFile[]): string[] {
  const quiet = files.filter(({ path }) => !MAY_PRINT.test(path));
  return each(quiet, (node) =>
    node.type === "MemberExpression" && /^(?:globalThis\.)?console\./.test(chainOf(node).join("."))
      ? "console outside main, cli, bench and walkthrough"
      : undefined,
  );
}

const NOT_RUN = ["only", "skip", "todo"];

/** Every test runs: none is singled out, skipped or promised. */
export function checkTestsRun(files: readonly ProjectFile[]): string[] {
  return each(files.filter(isTest), (node) => {
    if (node.type !== "MemberExpression") return undefined;
    const [root = "", ...rest] = chainOf(node);
    const held = ["test", "it", "describe", "suite"].includes(root) ? rest.at(-1) : undefined;
    return held !== undefined && NOT_RUN.includes(held)
      ? `${root}.${held}: every test runs`
      : undefined;
  });
}

/** A test file expects something, and of something that can differ. */
export function checkTestsExpect(files: readonly ProjectFile[]): string[] {
  const idle = files.filter(isTest).filter((file) => expectations(file).length === 0);
  const empty = each(files.filter(isTest), (node) =>
    isExpect(node) && children(node, "arguments")[0]?.type === "Literal"
      ? "expects something of a constant, which cannot fail"
      : undefined,
  );
  return [...idle.map(({ path }) => `${path}:1: a test file that expects nothing`), ...empty];
}

function expectations(file: ProjectFile): SyntaxNode[] {
  const found: SyntaxNode[] = [];
  walk(syntaxOf(file), (node) => {
    if (isExpect(node)) found.push(node);
  });
  return found;
}

function isExpect(node: SyntaxNode): boolean {
  return (
    node.type === "CallExpression" &&
    /^expect(?:\.(?:soft|poll))?$/.test(chainOf(child(node, "callee")).join("."))
  );
}

function isTest({ path }: ProjectFile): boolean {
  return path.endsWith(".test.ts");
}

function each(
  files: readonly ProjectFile[],
  problemOf: (node: SyntaxNode) => string | undefined,
): string[] {
  return files
    .filter(({ path }) => isCode(path))
    .flatMap((file) => {
      const found: string[] = [];
      walk(syntaxOf(file), (node) => {
        const problem = problemOf(node);
        if (problem) found.push(finding(file, node, problem));
      });
      return found;
    });
}
