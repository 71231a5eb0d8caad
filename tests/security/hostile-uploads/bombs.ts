// Small files that ask for much: sizes in headers, packed texts, many pieces, many scans.
import { deflateSync } from "node:zlib";
import { type HostileFile, hostile, type SoundPictures } from "./hostile-file.ts";
import { chunk, packedText, png, withChunks } from "./png-bytes.ts";

const MB = 1_000_000;

export const bombs = (sound: SoundPictures): HostileFile[] => [
  ...pngSizes(),
  ...pngPieces(sound.png),
  ...jpegs(sound),
  ...webps(sound),
  ...others(sound),
];

const pngSizes = (): HostileFile[] =>
  [
    { width: 100_000, height: 100_000 },
    { width: 2 ** 31 - 1, height: 2 ** 31 - 1 },
    { width: 2 ** 31 - 1, height: 1 },
    { width: 1, height: 2 ** 31 - 1 },
    { width: 2 ** 32 - 1, height: 2 ** 32 - 1 },
    { width: 0, height: 10 },
    { width: 10, height: 0 },
    { width: 7746, height: 7747 },
    { width: 7000, height: 8000, depth: 16, colour: 6, interlaced: true },
    { width: 7000, height: 8000, depth: 16, colour: 2, interlaced: true },
    { width: 7000, height: 8000, depth: 16, colour: 6 },
    { width: 7000, height: 8000, depth: 8, colour: 6, interlaced: true },
    { width: 7000, height: 8000, depth: 8, colour: 3, interlaced: true },
    { width: 8, height: 8, depth: 8, colour: 5 },
    { width: 8, height: 8, depth: 3, colour: 2 },
  ].map((head) => hostile(`PNG of ${JSON.stringify(head)}`, png(head, 50_000), "image/png"));

function pngPieces(sound: Buffer): HostileFile[] {
  const packed = deflateSync(Buffer.alloc(60 * MB, 65));
  const repeated = (count: number, piece: Buffer) => [
    Buffer.concat(Array.from({ length: count }, () => piece)),
  ];
  const text = chunk("tEXt", Buffer.from("Comment\0a"));
  const frame = chunk("fdAT", Buffer.alloc(8));
  const one = (what: string, ...pieces: Buffer[]) =>
    hostile(`PNG with ${what}`, withChunks(sound, ...pieces), "image/png");
  const international = Buffer.from("Comment\0\x01\0en\0Comment\0");
  return [
    one("60 MB in a zTXt", chunk("zTXt", Buffer.concat([Buffer.from("C\0\0"), packed]))),
    one("60 MB in an iTXt", chunk("iTXt", Buffer.concat([international, packed]))),
    one("60 MB in an iCCP", chunk("iCCP", Buffer.concat([Buffer.from("P\0\0"), packed]))),
    one("a thousand zTXt of 7 MB", ...repeated(1000, packedText("Comment", 7 * MB))),
    one("six zTXt of 900 KB", ...repeated(6, packedText("Comment", 900_000))),
    one(
      "eight zTXt that break off",
      ...repeated(8, chunk("zTXt", Buffer.concat([Buffer.from("C\0\0"), packed.subarray(0, 900)]))),
    ),
    one("100,000 texts", ...repeated(100_000, text)),
    one("5,000 animated frames", ...repeated(5000, frame)),
    one("100,000 empty chunks", ...repeated(100_000, chunk("prVt", Buffer.alloc(0)))),
    one("a second header of another size", png({ width: 9, height: 9 }, 9).subarray(8, 33)),
  ];
}

function jpegs({ jpeg, progressive }: SoundPictures): HostileFile[] {
  const sized = (source: Buffer, width: number, height: number) => {
    const bytes = Buffer.from(source);
    const frame = frameAt(bytes);
    bytes.writeUInt16BE(height, frame + 5);
    bytes.writeUInt16BE(width, frame + 7);
    return bytes;
  };
  const scan = progressive.subarray(progressive.lastIndexOf(Buffer.from([0xff, 0xda])), -2);
  const scans = Buffer.concat([
    ...[progressive.subarray(0, -2), ...Array.from({ length: 500 }, () => scan)],
    progressive.subarray(-2),
  ]);
  const comments = Buffer.concat(
    Array.from({ length: 20_000 }, () => Buffer.from([0xff, 0xfe, 0, 3, 65])),
  );
  const zero = Buffer.from(jpeg);
  zero[frameAt(zero) + 11] = 0;
  return [
    hostile("JPEG of 65,535 pixels each way", sized(jpeg, 65_535, 65_535), "image/jpeg"),
    hostile("JPEG of no width", sized(jpeg, 0, 40), "image/jpeg"),
    hostile("JPEG of no height", sized(jpeg, 40, 0), "image/jpeg"),
    hostile("JPEG larger than its data", sized(jpeg, 7000, 8000), "image/jpeg"),
    hostile("progressive JPEG of 60 Mpx", sized(progressive, 7700, 7700), "image/jpeg"),
    hostile("progressive JPEG of 65,535 pixels", sized(progressive, 65_535, 900), "image/jpeg"),
    hostile("progressive JPEG of 500 scans more", scans, "image/jpeg"),
    hostile(
      "JPEG of 20,000 comments",
      Buffer.concat([jpeg.subarray(0, 2), comments, jpeg.subarray(2)]),
      "image/jpeg",
    ),
    hostile("JPEG whose samples have no factor", zero, "image/jpeg"),
    hostile("JPEG with two frames", twice(jpeg), "image/jpeg"),
    hostile(
      "JPEG of fill bytes",
      Buffer.concat([jpeg.subarray(0, 2), Buffer.alloc(2 * MB, 255)]),
      "image/jpeg",
    ),
  ];
}

/** Where the frame header stands: SOF0 or SOF2 (ITU-T T.81, B.2.2). */
export const frameAt = (bytes: Buffer): number =>
  Math.max(bytes.indexOf(Buffer.from([0xff, 0xc0])), bytes.indexOf(Buffer.from([0xff, 0xc2])));

function twice(jpeg: Buffer): Buffer {
  const at = frameAt(jpeg);
  const frame = jpeg.subarray(at, at + 2 + jpeg.readUInt16BE(at + 2));
  return Buffer.concat([jpeg.subarray(0, at), frame, jpeg.subarray(at)]);
}

function webps({ webp, lossless }: SoundPictures): HostileFile[] {
  const changed = (source: Buffer, at: number, ...bytes: number[]) => {
    const copy = Buffer.from(source);
    copy.set(bytes, at);
    return copy;
  };
  const [size, flags] = [Buffer.alloc(4), Buffer.alloc(4)];
  flags[0] = 2;
  const canvas = Buffer.concat([flags, Buffer.alloc(6, 255)]);
  const head = Buffer.concat([Buffer.from("VP8X\x0a\0\0\0"), canvas, webp.subarray(12)]);
  size.writeUInt32LE(4 + head.length);
  const extended = Buffer.concat([Buffer.from("RIFF"), size, Buffer.from("WEBP"), head]);
  return [
    hostile("WebP of 16,383 pixels each way", changed(webp, 26, 255, 63, 255, 63), "image/webp"),
    hostile("WebP of no width", changed(webp, 26, 0, 0), "image/webp"),
    hostile("WebP, lossless, of 16,384", changed(lossless, 21, 255, 255, 255, 15), "image/webp"),
    hostile("WebP of 6000 × 6000", changed(webp, 26, 112, 23, 112, 23), "image/webp"),
    hostile("WebP canvas of 2^24, animated", extended, "image/webp"),
    hostile("WebP longer than it is", changed(webp, 4, 255, 255, 255, 255), "image/webp"),
    hostile("WebP shorter than its header", changed(webp, 4, 4, 0, 0, 0), "image/webp"),
    hostile("WebP chunk beyond its end", changed(webp, 16, 255, 255, 255, 127), "image/webp"),
    hostile("WebP of an unknown chunk", changed(webp, 12, 88, 88, 88, 88), "image/webp"),
  ];
}

function others({ gif, tiff }: SoundPictures): HostileFile[] {
  const wide = Buffer.from(gif);
  wide.writeUInt16LE(65_535, 6);
  wide.writeUInt16LE(65_535, 8);
  const frames = Buffer.concat([gif.subarray(0, -1), ...Array.from({ length: 500 }, () => gif)]);
  return [
    hostile("GIF of 65,535 pixels each way", wide, "image/png"),
    hostile("GIF of hundreds of frames", frames, "image/png"),
    hostile("GIF as it should be", gif, "image/jpeg"),
    hostile("TIFF as it should be", tiff, "image/jpeg"),
    hostile("TIFF whose directory is itself", "II*\0\x08\0\0\0\x01\0\x08\0\0\0", "image/png"),
    hostile("BMP of 2^31 pixels", `BM${"\xff\x7f".repeat(40)}`, "image/png"),
    hostile("HEIF header", "\0\0\0\x18ftypheic\0\0\0\0mif1heic", "image/jpeg"),
    hostile("AVIF header", "\0\0\0\x18ftypavif\0\0\0\0mif1avif", "image/webp"),
  ];
}
