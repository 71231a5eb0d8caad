// The sentences that the code makes, read off its syntax: every text and template literal of more
// than one word, in every form that a choice inside of it (`… ${one ? "a" : "b"} …`) can give.
import { readFileSync } from "node:fs";
import type { ProjectFile } from "../tidy/project-files.ts";
import {
  chainOf,
  child,
  children,
  finding,
  nameOf,
  type SyntaxNode,
  syntaxOf,
  walk,
} from "../tidy/syntax.ts";

/** A place for a value, whatever it is called. */
export const PLACE = "{}";

export interface MadeSentence {
  /** The sentence with `{}` for each value. */
  form: string;
  /** File and line. */
  where: string;
  /** The call or construction that it is handed to. */
  called: string;
}

/** Which texts of a file are sentences: those of everything, or what is handed to such a call. */
export type Taken = (node: SyntaxNode, around: readonly SyntaxNode[]) => boolean;

const FORMS_MOST = 32;

export function sentencesOf(path: string, taken: Taken = () => true): MadeSentence[] {
  const file: ProjectFile = { path, text: readFileSync(path, "utf8") };
  const made: MadeSentence[] = [];
  const inside = new Set<SyntaxNode>();
  walk(syntaxOf(file), (node, around) => {
    if (inside.has(node) || isApart(around) || !isText(node)) return;
    walk(node, (part) => {
      if (part !== node && isPartOfForm(part)) inside.add(part);
    });
    if (!taken(node, around)) return;
    for (const form of formsOf(node)) {
      if (isSentence(form))
        made.push({ form, where: finding(file, node, form), called: calledWith(around) });
    }
  });
  return made;
}

const isText = (node: SyntaxNode): boolean =>
  node.type === "TemplateLiteral" ||
  (node.type === "Literal" && typeof node.value === "string") ||
  (node.type === "BinaryExpression" && node.operator === "+" && formsOf(node)[0] !== PLACE);

const isPartOfForm = (node: SyntaxNode): boolean =>
  node.type === "TemplateLiteral" || node.type === "BinaryExpression" || node.type === "Literal";

const isSentence = (form: string): boolean =>
  /\p{L}{2}/u.test(form) &&
  (/\p{L}.*\s\S|^\S+\s.*\p{L}/u.test(form) || /^\p{Lu}\p{L}+\.$/u.test(form));

/** Imports, types, SQL, and what only somebody who mends the code will read. */
function isApart(around: readonly SyntaxNode[]): boolean {
  return around.some((node) => {
    if (/^(?:Import|ExportAll|TSType|TSInterface|TSLiteral|TaggedTemplate)/.test(node.type))
      return true;
    if (node.type !== "ThrowStatement") return false;
    const thrown = child(node, "argument");
    const name = nameOf(child(thrown, "callee"));
    return thrown?.type === "NewExpression" && name !== "Problem";
  });
}

/** Every form that a text can take; what is not known beforehand is a place. */
function formsOf(node: SyntaxNode | undefined): string[] {
  if (node?.type === "Literal" && typeof node.value === "string") return [node.value];
  if (node?.type === "TemplateLiteral") return formsOfTemplate(node);
  if (node?.type === "ConditionalExpression") {
    return [...formsOf(child(node, "consequent")), ...formsOf(child(node, "alternate"))];
  }
  if (node?.type === "LogicalExpression") {
    return [...formsOf(child(node, "left")), ...formsOf(child(node, "right"))];
  }
  if (node?.type === "BinaryExpression" && node.operator === "+") {
    return combined([formsOf(child(node, "left")), formsOf(child(node, "right"))]);
  }
  if (node?.type === "ParenthesizedExpression") return formsOf(child(node, "expression"));
  return [PLACE];
}

function formsOfTemplate(node: SyntaxNode): string[] {
  const expressions = children(node, "expressions");
  const lists = children(node, "quasis").flatMap((quasi, index) => {
    const text = String((quasi.value as { cooked: string }).cooked);
    return index < expressions.length ? [[text], formsOf(expressions[index])] : [[text]];
  });
  return combined(lists);
}

const combined = (lists: readonly (readonly string[])[]): string[] =>
  lists.reduce<string[]>(
    (before, forms) =>
      before
        .flatMap((start) => forms.map((form) => (start + form).replace("{}{}", PLACE)))
        .slice(0, FORMS_MOST),
    [""],
  );

/** The names along the call or construction that a text is handed to, the nearest first. */
export function calledWith(around: readonly SyntaxNode[]): string {
  const call = around.find(({ type }) => type === "CallExpression" || type === "NewExpression");
  return chainOf(child(call, "callee")).at(-1) ?? "";
}
