// Files cut off at every part of theirs, and files of two kinds at once.
import { frameAt } from "./bombs.ts";
import { type HostileFile, hostile, PDF, SCRIPT, type SoundPictures } from "./hostile-file.ts";
import { chunk, chunkPlaces, withChunks } from "./png-bytes.ts";
import { ZIP, ZIP_END } from "./zip-bytes.ts";

export const cutAndMixed = (sound: SoundPictures): HostileFile[] => [
  ...cuts(sound),
  ...inside(sound),
  ...mixed(sound),
];

function cuts({ jpeg, progressive, png, webp, lossless }: SoundPictures): HostileFile[] {
  const cut = (what: string, bytes: Buffer, type: string, places: readonly number[]) =>
    [...new Set(places)].map((at) =>
      hostile(`${what} cut at ${at} of ${bytes.length}`, bytes.subarray(0, at), type),
    );
  const inPng = chunkPlaces(png).flatMap(({ at, length }) => [at, at + 6, at + 8 + length]);
  const inWebp = [4, 8, 12, 16, 20, 26, 29, 30, 60];
  const inPdf = ["\n1 0", "stream", "endobj", "xref", "trailer", "startxref", "%%EOF"];
  const pdfPlaces = inPdf.map((word) => PDF.indexOf(word)).filter((at) => at > 0);
  return [
    ...cut("JPEG", jpeg, "image/jpeg", [...markerPlaces(jpeg), jpeg.length - 2, jpeg.length - 1]),
    ...cut("progressive JPEG", progressive, "image/jpeg", markerPlaces(progressive)),
    ...cut("PNG", png, "image/png", inPng),
    ...cut("WebP", webp, "image/webp", [...inWebp, webp.length - 1]),
    ...cut("lossless WebP", lossless, "image/webp", [...inWebp, lossless.length - 1]),
    ...cut("PDF", PDF, "application/pdf", [5, ...pdfPlaces, PDF.length - 3]),
  ];
}

/** Behind SOI, and within and behind each marker segment up to the scan (ITU-T T.81, B.1.1.4). */
function markerPlaces(jpeg: Buffer): number[] {
  const places = [2, 3];
  for (let at = 2; jpeg[at] === 0xff; ) {
    const isScan = jpeg[at + 1] === 0xda;
    at += 2 + jpeg.readUInt16BE(at + 2);
    places.push(at - 1, at);
    if (isScan) break;
  }
  return [...places, Math.floor((frameAt(jpeg) + jpeg.length) / 2)];
}

/** Sound by one of their kinds: taken as that, and nothing of the other comes out or can run. */
function mixed({ jpeg, png, webp }: SoundPictures): HostileFile[] {
  const behind: [string, Buffer][] = [
    ["HTML", Buffer.from(`<html>${SCRIPT}</html>`)],
    ["a ZIP", Buffer.concat([ZIP, Buffer.from(SCRIPT), ZIP_END])],
    ["a JAR", Buffer.concat([ZIP, Buffer.from(`META-INF/MANIFEST.MF${SCRIPT}`), ZIP_END])],
    ["a PDF", Buffer.concat([PDF, Buffer.from(SCRIPT)])],
    ["PHP", Buffer.from(`<?php echo "${SCRIPT}"; ?>`)],
    ["an ELF", Buffer.concat([Buffer.from("\x7fELF"), Buffer.from(SCRIPT)])],
  ];
  const scripted = Buffer.from(
    PDF.toString("latin1").replace(
      "/Type/Catalog",
      `/Type/Catalog/OpenAction<</S/JavaScript/JS(app.alert\\(1\\) ${SCRIPT})>>`,
    ),
    "latin1",
  );
  return [
    ...([jpeg, png, webp] as const).flatMap((bytes, index) => {
      const type = (["image/jpeg", "image/png", "image/webp"] as const)[index]!;
      return behind.map(([what, more]) => ({
        ...hostile(`${type} with ${what} behind it`, Buffer.concat([bytes, more]), type),
        ...{ sound: type, payload: SCRIPT },
      }));
    }),
    {
      ...hostile("PDF that runs JavaScript", scripted, "application/pdf"),
      ...{ sound: "application/pdf" as const, payload: SCRIPT },
    },
    hostile("GIF with a JAR behind it", Buffer.concat([Buffer.from("GIF89a"), ZIP]), "image/png"),
    hostile("JPEG behind HTML", Buffer.concat([Buffer.from(SCRIPT), jpeg]), "image/jpeg"),
    hostile("PNG behind a ZIP", Buffer.concat([ZIP, png]), "image/png"),
    hostile("PDF behind a script", Buffer.concat([Buffer.from(SCRIPT), PDF]), "application/pdf"),
  ];
}

function inside({ jpeg, png }: SoundPictures): HostileFile[] {
  const comment = Buffer.from(`<!--${SCRIPT}-->`);
  const length = Buffer.alloc(2);
  length.writeUInt16BE(comment.length + 2);
  return [
    {
      ...hostile("JPEG with HTML in a comment", "", "image/jpeg"),
      bytes: Buffer.concat([
        ...[jpeg.subarray(0, 2), Buffer.from([0xff, 0xfe]), length, comment, jpeg.subarray(2)],
      ]),
      ...{ sound: "image/jpeg" as const, payload: SCRIPT },
    },
    {
      ...hostile("PNG with HTML in a text", "", "image/png"),
      bytes: withChunks(png, chunk("tEXt", Buffer.concat([Buffer.from("Title\0"), comment]))),
      ...{ sound: "image/png" as const, payload: SCRIPT },
    },
  ];
}
