// How a form with files is parted (RFC 7578, RFC 2046 5.1.1), counted before it is taken apart: a
// form of ours has few parts, each with a short header.

/** RFC 2046, 5.1.1: a boundary has at most 70 signs. */
const BOUNDARY = /;\s*boundary=(?:"([^"]{1,70})"|([^\s;"]{1,70}))\s*(?:;|$)/i;
const PARTS_MOST = 50;
const HEADER_BYTES_MOST = 4096;

/** Whether the body can be taken apart at little cost; false as well where it cannot at all. */
export function hasFewParts(contentType: string, body: Buffer): boolean {
  const [, quoted, plain] = BOUNDARY.exec(contentType) ?? [];
  const boundary = quoted ?? plain;
  if (boundary === undefined) return false;
  const delimiter = Buffer.from(`--${boundary}`, "latin1");
  let at = body.indexOf(delimiter);
  for (let parts = 0; at >= 0; parts += 1) {
    if (parts > PARTS_MOST) return false;
    at += delimiter.length;
    if (body.subarray(at, at + 2).toString("latin1") === "--") return true;
    const header = body.subarray(at, at + HEADER_BYTES_MOST);
    if (!header.includes("\r\n\r\n")) return false;
    at = body.indexOf(delimiter, at);
  }
  return false;
}
