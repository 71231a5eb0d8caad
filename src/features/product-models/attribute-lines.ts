// The figures of a model as a person types them: one a line, "terminalTorqueNm = 8.6".

type Attributes = Record<string, string | number | boolean>;

export const attributeLines = (attributes: Attributes): string =>
  Object.entries(attributes)
    .map(([name, value]) => `${name} = ${value}`)
    .join("\n");

/** A line that is none is told with its number; what looks like a number or yes/no is one. */
export function readAttributeLines(
  text: string,
): { ok: true; attributes: Attributes } | { ok: false; problem: string } {
  const attributes: Attributes = {};
  for (const [index, line] of text.split(/\r?\n/).entries()) {
    if (line.trim() === "") continue;
    const [, name, value] = /^\s*([A-Za-z]\w*)\s*=\s*(\S.*?)\s*$/.exec(line) ?? [];
    if (name === undefined || value === undefined) {
      return { ok: false, problem: `line ${index + 1} is not of the form name = value` };
    }
    if (Object.hasOwn(attributes, name)) {
      return { ok: false, problem: `line ${index + 1} gives ${name} a second time` };
    }
    attributes[name] = readValue(value);
  }
  return { ok: true, attributes };
}

function readValue(text: string): string | number | boolean {
  if (text === "true" || text === "false") return text === "true";
  return /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text;
}
