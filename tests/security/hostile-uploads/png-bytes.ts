// PNG put together chunk by chunk (PNG, third edition, section 5), to say what no encoder says.
import { crc32, deflateSync } from "node:zlib";

export const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

export function chunk(name: string, data: Buffer): Buffer {
  const whole = Buffer.alloc(12 + data.length);
  whole.writeUInt32BE(data.length, 0);
  whole.write(name, 4, "latin1");
  data.copy(whole, 8);
  whole.writeUInt32BE(crc32(whole.subarray(4, 8 + data.length)), 8 + data.length);
  return whole;
}

export interface Header {
  width: number;
  height: number;
  depth?: number;
  /** 0 grey, 2 RGB, 3 palette, 4 grey and opacity, 6 RGB and opacity. */
  colour?: number;
  interlaced?: boolean;
}

export function header({ width, height, depth = 8, colour = 2, interlaced }: Header): Buffer {
  const data = Buffer.alloc(13);
  data.writeUInt32BE(width, 0);
  data.writeUInt32BE(height, 4);
  data.set([depth, colour, 0, 0, interlaced ? 1 : 0], 8);
  return chunk("IHDR", data);
}

export const END = chunk("IEND", Buffer.alloc(0));

/** A picture of nothing but zeros, of so many bytes unpacked. */
export const png = (head: Header, unpackedBytes: number, more: readonly Buffer[] = []): Buffer =>
  Buffer.concat([
    ...[SIGNATURE, header(head), ...more],
    ...[chunk("IDAT", deflateSync(Buffer.alloc(unpackedBytes))), END],
  ]);

/** A sound picture with other chunks behind its header. */
export const withChunks = (sound: Buffer, ...more: Buffer[]): Buffer =>
  Buffer.concat([sound.subarray(0, 33), ...more, sound.subarray(33)]);

/** Where each chunk begins. */
export function chunkPlaces(bytes: Buffer): { name: string; at: number; length: number }[] {
  const places = [];
  for (let at = SIGNATURE.length; at < bytes.length; ) {
    const length = bytes.readUInt32BE(at);
    places.push({ name: bytes.toString("latin1", at + 4, at + 8), at, length });
    at += 12 + length;
  }
  return places;
}

export const packedText = (name: string, bytes: number): Buffer =>
  chunk("zTXt", Buffer.concat([Buffer.from(`${name}\0\0`), deflateSync(Buffer.alloc(bytes, 65))]));
