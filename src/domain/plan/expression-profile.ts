// Requirement: what a plan may write is the part of CEL that reads as arithmetic and conditions
// (CEL specification, language definition), and nothing whose work can grow beyond its length: no
// macros (all, exists, map), no cel.bind, no regular expressions, no times, no indexes. Without
// macros no condition can be true merely because a list is empty.
//
// Every number of a plan is a double, so `2` is read as `2.0` and size() gives a double; CEL itself
// would refuse `model.cells * 2` and give 3 for `7 / 2`. An expression is written out anew from its
// syntax tree, each name replaced by a slot of its type, so that no name of a plan ("constructor")
// ever reaches the library.
import type { ASTNode, BinaryOperator } from "@marcbachmann/cel-js";
import { NameSlots, type Reference, type ResolveName } from "./expression-names.ts";
import { notAllowed } from "./profile-fault.ts";

const METHODS = new Set([
  ...["contains", "endsWith", "lowerAscii", "size"],
  ...["startsWith", "trim", "upperAscii"],
]);
const CONVERSIONS = new Set(["double", "size", "string"]);
const BINARY: ReadonlySet<string> = new Set<BinaryOperator | "&&" | "||">([
  ...(["+", "-", "*", "/", "in", "&&", "||"] as const),
  ...(["==", "!=", "<", "<=", ">", ">="] as const),
]);

/**
 * Writes an expression out for the library and lists the names it reads.
 * @param functions what may be called besides double, size and string
 * @throws ProfileFault, whose message is the reason
 */
export function rewrite(
  ast: ASTNode,
  resolve: ResolveName,
  functions: ReadonlySet<string>,
): { source: string; references: readonly Reference[] } {
  const slots = new NameSlots(resolve);
  const source = write(ast, { slots, functions });
  return { source, references: slots.references() };
}

interface Writing {
  slots: NameSlots;
  functions: ReadonlySet<string>;
}

function write(node: ASTNode, writing: Writing): string {
  const all = (nodes: readonly ASTNode[]): string[] => nodes.map((child) => write(child, writing));
  switch (node.op) {
    case "value":
      return literal(node.args);
    case "id":
      return writing.slots.slot(node.args, "");
    case ".": {
      const [object, field] = node.args;
      if (object.op === "id") return writing.slots.slot(object.args, field);
      throw notAllowed(`"${field}" is asked of something that has no parts`);
    }
    case "call":
      requireFunction(node.args[0], writing.functions);
      return asDouble(node.args[0], `${node.args[0]}(${all(node.args[1]).join(", ")})`);
    case "rcall":
      return method(node.args, writing);
    case "list":
      return `[${all(node.args).join(", ")}]`;
    case "?:": {
      const [condition, then, otherwise] = all(node.args);
      return `(${condition} ? ${then} : ${otherwise})`;
    }
    case "!_":
      return `(!${write(node.args, writing)})`;
    case "-_":
      return `(-${write(node.args, writing)})`;
    default: {
      if (!BINARY.has(node.op)) throw notAllowed(`"${node.op}" has no place in a plan`);
      const [left, right] = all(node.args as [ASTNode, ASTNode]);
      return `(${left} ${node.op} ${right})`;
    }
  }
}

function literal(value: unknown): string {
  if (typeof value === "boolean") return String(value);
  // Escapes of JSON strings are escapes of CEL strings too (CEL specification, string literals).
  if (typeof value === "string") return JSON.stringify(value);
  if (typeof value === "bigint") {
    if (value > BigInt(Number.MAX_SAFE_INTEGER)) throw notAllowed(`${value} is too large`);
    return `${value}.0`;
  }
  if (typeof value === "number") return /[.e]/.test(`${value}`) ? `${value}` : `${value}.0`;
  throw notAllowed("null, bytes and unsigned numbers have no place in a plan");
}

function requireFunction(name: string, functions: ReadonlySet<string>): void {
  if (functions.has(name) || CONVERSIONS.has(name)) return;
  throw notAllowed(`there is no function ${name}() for plans`);
}

function method([name, receiver, values]: [string, ASTNode, ASTNode[]], writing: Writing): string {
  if (!METHODS.has(name)) throw notAllowed(`there is no .${name}() for plans`);
  const written = values.map((value) => write(value, writing)).join(", ");
  return asDouble(name, `${write(receiver, writing)}.${name}(${written})`);
}

const asDouble = (name: string, written: string): string =>
  name === "size" ? `double(${written})` : written;
