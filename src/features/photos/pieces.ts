// Files of any size read and written in large pieces whose memory is given back as soon as they
// are written. Left to the garbage collector they wait for it, by the hundred megabytes, and it
// takes a quarter of the time.
import { createWriteStream, type WriteStream } from "node:fs";
import { open } from "node:fs/promises";
import { Readable } from "node:stream";

/** Large enough that a bag of thousands of pictures is not made of small reads. */
const PIECE_BYTES = 512 * 1024;

/** Memory that nobody but its stream holds. */
const lent = new WeakSet<ArrayBufferLike>();

/** The bytes are the stream's alone from here on; they may end with it. */
export function lend(bytes: Buffer): Buffer {
  if (bytes.length === bytes.buffer.byteLength) lent.add(bytes.buffer);
  return bytes;
}

export const readInPieces = (path: string): Readable =>
  Readable.from(pieces(path), { objectMode: false, highWaterMark: PIECE_BYTES });

async function* pieces(path: string): AsyncGenerator<Buffer> {
  const file = await open(path);
  try {
    let left = (await file.stat()).size;
    while (left > 0) {
      const piece = Buffer.allocUnsafeSlow(Math.min(PIECE_BYTES, left));
      const { bytesRead } = await file.read(piece, 0, piece.length);
      if (bytesRead === 0) return;
      yield lend(piece).subarray(0, bytesRead);
      left -= bytesRead;
    }
  } finally {
    await file.close();
  }
}

/** A new file; pieces that end in it are no more once they are written. */
export function writeInPieces(path: string): WriteStream {
  const file = createWriteStream(path, { flags: "wx", mode: 0o600 });
  const [write, writeAll] = [file._write.bind(file), file._writev?.bind(file)];
  file._write = (chunk, encoding, done) =>
    write(chunk, encoding, (error) => {
      letGo(chunk);
      done(error);
    });
  file._writev = (chunks, done) =>
    writeAll?.(chunks, (error) => {
      for (const { chunk } of chunks) letGo(chunk);
      done(error);
    });
  return file;
}

function letGo({ buffer }: Buffer): void {
  if (lent.delete(buffer) && buffer instanceof ArrayBuffer) buffer.transfer(0);
}
