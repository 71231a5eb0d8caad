// Tables that are none (RFC 4180), and delivery reports that are none (RFC 3464, RFC 2046).
const MB = 1_000_000;

export interface HostileTable {
  what: string;
  bytes: Buffer;
}

const head = "reference,name,email\n";
const utf16 = (text: string, mark = "\ufeff") => Buffer.from(`${mark}${text}`, "utf16le");
const bytes = (...parts: (string | readonly number[])[]) =>
  Buffer.concat(parts.map((part) => Buffer.from(part as string)));

const quoted = (): [string, Buffer][] => [
  ["nothing", bytes("")],
  ["one sign", bytes("x")],
  ["one line of 20 MB", Buffer.alloc(20 * MB, 97)],
  ["a row of 20 MB", Buffer.concat([Buffer.from(`${head}C-1,`), Buffer.alloc(20 * MB, 97)])],
  ["100,000 columns", bytes("a,".repeat(100_000), "\n", "1,".repeat(100_000))],
  ["100,000 columns without names", bytes(",".repeat(100_000))],
  ["a row of 100,000 cells", bytes(head, "1,".repeat(100_000))],
  ["a name of 10,000 letters", bytes("a".repeat(10_000), ",b\n1,2\n")],
  ["NUL bytes alone", Buffer.alloc(100_000)],
  ["NUL in the header", bytes("refer\0ence,name\nC-1,a\n")],
  ["NUL in a cell", bytes(head, "C-1,a\0b,\n")],
  ["a quote alone", bytes('"')],
  ["a quote that nothing closes", bytes(head, 'C-1,"open\n'.repeat(50_000))],
  ["a quote in a cell", bytes(head, 'C-1,a"b"c,\n')],
];

const mixedUp = (): [string, Buffer][] => [
  ["a sign behind a quote", bytes(head, 'C-1,"a"b,\n')],
  ["quotes alone", bytes('"'.repeat(100_001))],
  ["200,000 empty lines", bytes("\n".repeat(200_000))],
  ["line ends of every kind", bytes("reference,name\rC-1,a\r\nC-2,b\n\rC-3,c")],
  ["bytes that are no UTF-8", bytes(head, "C-1,", [0xff, 0xfe, 0xfd, 0xc0, 0x80], ",\n")],
  ["UTF-8 of a surrogate", bytes(head, "C-1,", [0xed, 0xa0, 0x80], ",\n")],
  ["UTF-8 cut off", bytes(head, "C-1,", [0xe2, 0x82])],
  ["UTF-16 of one byte too few", utf16(`${head}C-1,a,\n`).subarray(0, -1)],
  ["UTF-16 of a lone surrogate", utf16(`${head}C-1,\ud800x,\n`)],
  ["UTF-16 without a mark", utf16(`${head}C-1,a,\n`, "")],
  ["UTF-8's mark before UTF-16's", bytes([0xef, 0xbb, 0xbf, 0xff, 0xfe], head)],
  ["UTF-16's mark before ASCII", bytes([0xff, 0xfe], head, "C-1,a,\n")],
  ["marks alone", bytes([0xef, 0xbb, 0xbf])],
  ["many marks", bytes("\ufeff".repeat(1000), head)],
  ["UTF-32", bytes([0xff, 0xfe, 0, 0, 0x61, 0, 0, 0])],
  ["columns that are called alike", bytes("name,name,name\na,b,c\n")],
  ["columns of an object's own", bytes("__proto__,constructor,toString\na,b,c\n")],
  ["formulas", bytes(head, "=1+1,@SUM(A1),+1\n", "C-2,-1,=cmd|' /C calc'!A0\n")],
  ["a ZIP called a table", bytes([0x50, 0x4b, 3, 4, 20, 0, 6, 0, 8, 0])],
  ["a picture called a table", bytes([0xff, 0xd8, 0xff, 0xe0, 0, 16], "JFIF\0")],
  ["HTML called a table", bytes("<html><script>1</script></html>")],
  ["JSON called a table", bytes('{"reference": "C-1", "name": "a"}')],
  ["a separator line of a spreadsheet", bytes("sep=;\nreference;name\nC-1;a\n")],
  ["one row 3,000 times", bytes(head, "C-1,a,\n".repeat(3000))],
];

export const hostileTables = (): HostileTable[] =>
  [...quoted(), ...mixedUp()].map(([what, content]) => ({ what, bytes: content }));

const REPORT = "Content-Type: multipart/report; boundary=b\n\n";

export const hostileMails = (): HostileTable[] => {
  const nested = (depth: number): string =>
    Array.from(
      { length: depth },
      (_, at) => `Content-Type: multipart/mixed; boundary=n${at}\n\n--n${at}\n`,
    ).join("");
  const status = "--b\nContent-Type: message/delivery-status\n\n";
  return (
    [
      ["nothing", ""],
      ["a line", "x"],
      ["NUL bytes", "\0".repeat(10_000)],
      ["HTML", "<script>1</script>"],
      ["parts 5,000 deep", nested(5000)],
      ["100,000 parts", `${REPORT}${"--b\n\nx\n".repeat(100_000)}--b--`],
      ["a boundary of 500 KB", `Content-Type: multipart/report; boundary=${"b".repeat(5e5)}\n\nx`],
      ["a boundary of regular signs", 'Content-Type: multipart/x; boundary="(.*)*[a-"\n\n--x'],
      ["a header of 900 KB", `Subject: ${"a".repeat(9e5)}\n\nx`],
      ["100,000 header fields", `${"X-A: a\n".repeat(100_000)}\nx`],
      ["100,000 folded lines", `Subject: a\n${" b\n".repeat(100_000)}\nx`],
      ["blanks alone", `Content-Type: ${" ".repeat(900_000)}`],
      ["half-open parameters", `Content-Type: multipart/x${'; boundary="\\'.repeat(70_000)}`],
      ["semicolons alone", `Content-Type: multipart/x${"; ".repeat(400_000)}\n\nx`],
      ["a report of blank lines", `${REPORT}${status}${"\n \t".repeat(200_000)}`],
      ["a report of angle brackets", `${REPORT}${status}Message-ID: ${"<".repeat(800_000)}`],
      ["a report about nothing", `${REPORT}${status}Reporting-MTA: dns; a.example\n`],
      [
        "a report of a mail nobody sent",
        `${REPORT}${status}Original-Envelope-Id: +00+0D+0A\n\n` +
          "Final-Recipient: rfc822; a@b.example\n" +
          "Action: failed\nStatus: 5.1.1\n",
      ],
      ["fields of an object's own", "__proto__: x\nconstructor: y\ntoString: z\n\nx"],
    ] as [string, string][]
  ).map(([what, text]) => ({ what, bytes: Buffer.from(text) }));
};
