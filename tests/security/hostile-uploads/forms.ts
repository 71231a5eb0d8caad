// Forms that are no forms, and names that are none (RFC 7578, RFC 2046 5.1.1; names: OWASP, File
// Upload Cheat Sheet, from memory).
import { PDF } from "./hostile-file.ts";
import { formBody } from "./send.ts";

export interface HostileForm {
  what: string;
  type: string;
  bytes: Buffer;
}

const TYPE = "multipart/form-data; boundary=b";
const file = { type: "application/pdf", bytes: PDF };
const part = (header: string, body = "x") => `--b\r\n${header}\r\n\r\n${body}\r\n`;
const field = (name: string) => part(`Content-Disposition: form-data; name="${name}"`);
const FILE_HEADER = 'Content-Disposition: form-data; name="file"; filename="a.pdf"';

const WHOLE = formBody("b", file);
const LONG = "b".repeat(10_000);
const text = (what: string, body: string, type = TYPE): HostileForm => ({
  ...{ what, type, bytes: Buffer.from(body) },
});

const boundaries = (): HostileForm[] => [
  { what: "no boundary", type: "multipart/form-data", bytes: WHOLE },
  { what: "an empty boundary", type: "multipart/form-data; boundary=", bytes: WHOLE },
  { what: "another boundary", type: "multipart/form-data; boundary=other", bytes: WHOLE },
  {
    ...{ what: "a boundary of 10,000 signs", type: `multipart/form-data; boundary=${LONG}` },
    bytes: formBody(LONG, file),
  },
  {
    ...{
      what: "a boundary of 71 signs",
      type: `multipart/form-data; boundary=${LONG.slice(0, 71)}`,
    },
    bytes: formBody(LONG.slice(0, 71), file),
  },
];

const NESTED = Array.from({ length: 500 }, (_, at) =>
  part(`Content-Type: multipart/mixed; boundary=n${at}`, `--n${at}`),
);

const tooMany = (): HostileForm[] => [
  text("thousands of parts", `${part(FILE_HEADER).repeat(5000)}--b--\r\n`),
  text("thousands of fields", `${field("name").repeat(20_000)}--b--\r\n`),
  text("fifty-two fields", `${field("name").repeat(52)}--b--\r\n`),
  text("a header of 1 MB", `${part(`${FILE_HEADER}\r\nX-A: ${"a".repeat(1e6)}`)}--b--\r\n`),
  text("100,000 headers", `${part(`${FILE_HEADER}\r\n${"X-A: a\r\n".repeat(1e5)}`)}--b--\r\n`),
  text("forms in forms", `${NESTED.join("")}--b--\r\n`),
];

const broken = (): HostileForm[] => [
  text("no last boundary", WHOLE.toString("latin1").replace("--b--", "")),
  text("a last boundary cut", WHOLE.toString("latin1").replace("--b--", "--b-")),
  text("only its last boundary", "--b--\r\n"),
  text("delimiters alone", "--b\r\n".repeat(30)),
  text("boundaries in one line", "--b".repeat(200_000)),
  text("a header without an end", `--b\r\n${FILE_HEADER}`),
  text("a part without a header", "--b\r\n\r\nx\r\n--b--\r\n"),
  text("a part without a name", `${part("Content-Disposition: form-data")}--b--\r\n`),
  text("a part that is an attachment", `${part("Content-Disposition: attachment")}--b--\r\n`),
  text("NUL bytes", "\0".repeat(5000)),
  text("nothing", ""),
  text("JSON called a form", '{"file": "x"}'),
  text("mixed parts", `${part(FILE_HEADER)}--b--\r\n`, "multipart/mixed; boundary=b"),
  text("a file that is no file", `${part('Content-Disposition: form-data; name="file"')}--b--\r\n`),
  text("a field named __proto__", `${field("__proto__")}${field("constructor")}--b--\r\n`),
  text("an empty file", `${part(FILE_HEADER, "")}--b--\r\n`),
  text("fields of an ordinary form", "file=x&name=y", "application/x-www-form-urlencoded"),
];

export const hostileForms = (): HostileForm[] => [...boundaries(), ...tooMany(), ...broken()];

/** Names of files as no name should be. */
export const HOSTILE_NAMES: readonly string[] = [
  ...["../../etc/passwd", "..\\..\\windows\\win.ini", "/etc/passwd", "C:\\boot.ini", "a/b.pdf"],
  ...["\\\\server\\share\\a.pdf", "file:///etc/passwd", "..", ".", "...", ".htaccess", "~/.ssh/id"],
  ...["a\r\nSet-Cookie: x=1.pdf", "a\nb.pdf", "a\rb.pdf", "a\0.pdf", "a.pdf\0.exe", "a\tb.pdf"],
  ...["a\u0085b.pdf", "a\u2028b.pdf", "\u202efdp.exe", "a\u2066b\u2069.pdf", "\u200e.pdf"],
  ...[
    "a".repeat(300),
    `${"é".repeat(200)}.pdf`,
    "\u{1f50b}".repeat(90),
    "a".repeat(159).concat("😀"),
  ],
  ...["CON", "con.pdf", "NUL.pdf", "COM1", "LPT9.pdf", "AUX.pdf", "PRN"],
  ...["a.pdf.", "a.pdf ", " a.pdf", "a. . .", "a.pdf::$DATA", "a:b", "a%00.pdf", "a%2e%2e%2fb"],
  ...['a".pdf', "a';.pdf", 'a"; filename="b.exe', "a;b=c.pdf", "<script>alert(1)</script>.pdf"],
  ...["=cmd|' /C calc'!A0.pdf", "$(id).pdf", "`id`.pdf", "{{7*7}}.pdf", "%s%n.pdf", "a|b.pdf"],
  ...["a.pdf.exe", "a.exe", "a.PdF", ".pdf", "-rf", "--help", "a\u0301".repeat(70), "\ufeffa.pdf"],
  ...["", "   ", "undefined", "null", "__proto__", "constructor", "\uffff", "a*?<>.pdf"],
];
