// Requirement: what a mail server sends back is read as far as a delivery report takes it, and no
// further. Sources: RFC 5322 2.2 (header fields and their folding), RFC 2045 5.1 and RFC 2046 5.1.1
// (parts and their boundary).

/** A message or a part of one: its fields by lower-case name, the first of each, and its text. */
export interface MessagePart {
  fields: Readonly<Record<string, string>>;
  /** Lower case, without parameters; "text/plain" where none is given (RFC 2045 5.2). */
  type: string;
  body: string;
}

const DEPTH_MOST = 4;
const PARTS_MOST = 50;

/** The message and all parts in it, parts of parts included, in their order. */
export function messageParts(raw: string, depth = 0): MessagePart[] {
  const part = readPart(raw);
  const boundary = part.type.startsWith("multipart/")
    ? parameterOf(part.fields["content-type"] ?? "", "boundary")
    : undefined;
  if (boundary === undefined || depth >= DEPTH_MOST) return [part];
  const inner = splitParts(part.body, boundary).slice(0, PARTS_MOST);
  return [part, ...inner.flatMap((text) => messageParts(text, depth + 1))];
}

/** Header fields, unfolded, up to the first empty line; of a repeated field the first counts. */
export function headerFields(text: string): Record<string, string> {
  const fields: Record<string, string> = {};
  for (const line of text.replace(/\r?\n(?=[ \t])/g, "").split(/\r?\n/)) {
    if (line === "") break;
    const [, name, value] = /^([!-9;-~]+)[ \t]*:(.*)$/.exec(line) ?? [];
    if (name !== undefined && value !== undefined) fields[name.toLowerCase()] ??= value.trim();
  }
  return fields;
}

function readPart(raw: string): MessagePart {
  const end = /^\r?\n|\r?\n\r?\n/.exec(raw);
  const fields = headerFields(raw.slice(0, end ? end.index : raw.length));
  const type = (fields["content-type"] ?? "text/plain").split(";")[0] ?? "";
  const body = end ? raw.slice(end.index + end[0].length) : "";
  return { fields, type: type.trim().toLowerCase(), body };
}

function parameterOf(value: string, name: string): string | undefined {
  const pattern = new RegExp(`;\\s*${name}\\s*=\\s*(?:"((?:[^"\\\\]|\\\\.)*)"|([^\\s;"]+))`, "i");
  const [, quoted, plain] = pattern.exec(value) ?? [];
  return quoted?.replace(/\\(.)/g, "$1") ?? plain;
}

function splitParts(body: string, boundary: string): string[] {
  const parts: string[] = [];
  let current: string[] | undefined;
  for (const line of body.split(/\r?\n/)) {
    const mark = line.trimEnd();
    if (mark === `--${boundary}` || mark === `--${boundary}--`) {
      if (current) parts.push(current.join("\r\n"));
      if (mark.endsWith("--") && mark !== `--${boundary}`) return parts;
      current = [];
    } else {
      current?.push(line);
    }
  }
  return current ? [...parts, current.join("\r\n")] : parts;
}
