import type { FileHandle } from "node:fs/promises";
import type { Readable } from "node:stream";

const CUT = new Set(["ECONNRESET", "ERR_STREAM_PREMATURE_CLOSE"]);

/**
 * Writes what comes in from `offset` on and flushes it, also when the connection is cut.
 * @param most bytes after which no more are taken
 * @returns where the file ends now, and whether more came than there may be
 */
export async function writeBody(
  file: FileHandle,
  body: Readable,
  offset: number,
  most: number,
): Promise<{ end: number; tooMuch: boolean }> {
  let end = offset;
  let tooMuch = false;
  try {
    for await (const piece of body as AsyncIterable<Buffer>) {
      const taken = piece.subarray(0, most - end);
      await writeAll(file, taken, end);
      end += taken.length;
      tooMuch = taken.length < piece.length;
      if (tooMuch) break;
    }
  } catch (error) {
    if (!CUT.has(String((error as { code?: unknown }).code))) throw error;
  }
  await file.sync();
  return { end, tooMuch };
}

async function writeAll(file: FileHandle, bytes: Buffer, position: number): Promise<void> {
  let written = 0;
  while (written < bytes.length) {
    const rest = bytes.length - written;
    written += (await file.write(bytes, written, rest, position + written)).bytesWritten;
  }
}
