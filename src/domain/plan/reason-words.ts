// Requirement: whoever writes a plan is told what is wrong in the words of the plan, not of the
// library.

const TYPE_NAMES: Readonly<Record<string, string>> = {
  double: "a number",
  int: "a number",
  bool: "true or false",
  string: "a text",
  "list<double>": "a list of numbers",
  "list<string>": "a list of texts",
};

/** "a number" for double. */
export const typeName = (type: string): string =>
  Object.hasOwn(TYPE_NAMES, type) ? (TYPE_NAMES[type] ?? type) : type;

/** The library's reason in one line, without its picture of the place. */
export function wordedReason(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  const line = (message.split("\n")[0] ?? "").replace(/\.$/, "");
  const operands = /^no such overload: (\S+) (\S+) (\S+)$/.exec(line);
  if (operands) {
    const [, left = "", operator = "", right = ""] = operands;
    return `${operator} does not go between ${typeName(left)} and ${typeName(right)}`;
  }
  const called = /^found no matching overload for '([\w.]+)\((.*)\)'$/.exec(line);
  if (called) {
    const given = (called[2] ?? "").split(", ").filter(Boolean).map(typeName).join(", ");
    return `${called[1]}() does not take ${given || "nothing"}`;
  }
  return line.replace(/^Exceeded max\w+.*$/, "it is too long or too deep");
}
