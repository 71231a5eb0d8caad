// Files cut off at every part of theirs, files of two kinds at once, and files of another kind than
// they are called.
import { gzipSync } from "node:zlib";
import { frameAt } from "./bombs.ts";
import { type HostileFile, hostile, PDF, SCRIPT, type SoundPictures } from "./hostile-file.ts";
import { chunk, chunkPlaces, withChunks } from "./png-bytes.ts";

const ZIP = Buffer.from("504b0304140000000000", "hex");
const ZIP_END = Buffer.concat([Buffer.from("504b0506", "hex"), Buffer.alloc(18)]);

export const cutAndMixed = (sound: SoundPictures): HostileFile[] => [
  ...cuts(sound),
  ...mixed(sound),
  ...disguised(),
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
  const comment = Buffer.from(`<!--${SCRIPT}-->`);
  const length = Buffer.alloc(2);
  length.writeUInt16BE(comment.length + 2);
  const inside = [
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
  const scripted = Buffer.from(
    PDF.toString("latin1").replace(
      "/Type/Catalog",
      `/Type/Catalog/OpenAction<</S/JavaScript/JS(app.alert\\(1\\) ${SCRIPT})>>`,
    ),
    "latin1",
  );
  return [
    ...inside,
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

function disguised(): HostileFile[] {
  const svg = (inside: string) =>
    `<svg xmlns="http://www.w3.org/2000/svg" width="9">${inside}</svg>`;
  const entities = Array.from({ length: 9 }, (_, at) => {
    const name = (index: number) => `&e${index};`;
    return `<!ENTITY e${at + 1} "${name(at).repeat(10)}">`;
  });
  const contents: [string, Buffer | string][] = [
    ["an SVG with a script", svg("<script>alert(1)</script>")],
    ["an SVG with a handler", '<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>'],
    ["an SVG with a foreign object", svg("<foreignObject><body/></foreignObject>")],
    ["an SVG of a file", svg('<image href="file:///etc/passwd"/>')],
    ["an SVG of another server", svg('<image href="http://127.0.0.1:9/a.png"/>')],
    ["an SVG of entities", `<!DOCTYPE s [<!ENTITY e0 "x">${entities.join("")}]><s>&e9;</s>`],
    [
      "an SVG of an outer entity",
      '<!DOCTYPE s [<!ENTITY e SYSTEM "file:///etc/passwd">]><s>&e;</s>',
    ],
    ["an SVG packed", gzipSync(svg(""))],
    ["an SVG of 10^9 pixels", '<svg xmlns="http://www.w3.org/2000/svg" width="1e9" height="1e9"/>'],
    ["HTML", `<!doctype html>${SCRIPT}`],
    ["XML", '<?xml version="1.0"?><a/>'],
    ["JavaScript", "alert(1)"],
    ["a Windows program", `MZ\x90\0${"\0".repeat(60)}PE\0\0`],
    ["an ELF program", "\x7fELF\x02\x01\x01"],
    ["a shell script", "#!/bin/sh\nid\n"],
    ["a ZIP", Buffer.concat([ZIP, ZIP_END])],
    ["a 7z", Buffer.from("377abcaf271c0004", "hex")],
    ["a gzip", gzipSync(Buffer.alloc(1_000_000))],
    ["NUL bytes", Buffer.alloc(5000)],
    ["a JPEG's signs alone", Buffer.from("ffd8ff", "hex")],
    ["a PNG's signature alone", Buffer.from("89504e470d0a1a0a", "hex")],
    [
      "JPEG signs before HTML",
      Buffer.concat([Buffer.from("ffd8ffe0", "hex"), Buffer.from(SCRIPT)]),
    ],
    ["a PDF's sign alone", "%PDF-1.7\n"],
    ["PostScript", "%!PS-Adobe-3.0\n"],
  ];
  const types = ["image/jpeg", "image/png", "image/webp", "application/pdf"] as const;
  return contents.flatMap(([what, bytes], index) =>
    [types[index % 3]!, "application/pdf"].map((type) =>
      hostile(`${what} as ${type}`, bytes, type),
    ),
  );
}
