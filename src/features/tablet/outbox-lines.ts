import { Problem } from "../../errors.ts";

export interface LineLimits {
  lineBytesMost: number;
  bytesMost: number;
}

const NEWLINE = 0x0a;

/** Lines of a stream, one in memory at a time; an empty last one is none. */
export async function* linesOf(
  stream: AsyncIterable<Buffer>,
  limits: LineLimits,
): AsyncGenerator<Buffer> {
  let pieces: Buffer[] = [];
  let lineBytes = 0;
  let bytes = 0;
  for await (const chunk of stream) {
    bytes += chunk.length;
    if (bytes > limits.bytesMost) throw tooLarge("The file", limits.bytesMost);
    let start = 0;
    for (let end = chunk.indexOf(NEWLINE); end >= 0; end = chunk.indexOf(NEWLINE, start)) {
      pieces.push(chunk.subarray(start, end));
      if (lineBytes + end - start > limits.lineBytesMost) {
        throw tooLarge("A line", limits.lineBytesMost);
      }
      yield Buffer.concat(pieces);
      pieces = [];
      lineBytes = 0;
      start = end + 1;
    }
    pieces.push(chunk.subarray(start));
    lineBytes += chunk.length - start;
    if (lineBytes > limits.lineBytesMost) throw tooLarge("A line", limits.lineBytesMost);
  }
  if (lineBytes > 0) yield Buffer.concat(pieces);
}

const tooLarge = (what: string, bytesMost: number): Problem =>
  new Problem("body-too-large", `${what} has more than ${bytesMost} bytes.`);
