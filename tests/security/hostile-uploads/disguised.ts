// Files of another kind than they are called.
import { gzipSync } from "node:zlib";
import { type HostileFile, hostile, SCRIPT } from "./hostile-file.ts";
import { ZIP, ZIP_END } from "./zip-bytes.ts";

const svg = (inside: string) => `<svg xmlns="http://www.w3.org/2000/svg" width="9">${inside}</svg>`;
const entities = Array.from({ length: 9 }, (_, at) => {
  const name = (index: number) => `&e${index};`;
  return `<!ENTITY e${at + 1} "${name(at).repeat(10)}">`;
});
const CONTENTS: [string, Buffer | string][] = [
  ["an SVG with a script", svg("<script>alert(1)</script>")],
  ["an SVG with a handler", '<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>'],
  ["an SVG with a foreign object", svg("<foreignObject><body/></foreignObject>")],
  ["an SVG of a file", svg('<image href="file:///etc/passwd"/>')],
  ["an SVG of another server", svg('<image href="http://127.0.0.1:9/a.png"/>')],
  ["an SVG of entities", `<!DOCTYPE s [<!ENTITY e0 "x">${entities.join("")}]><s>&e9;</s>`],
  ["an SVG of an outer entity", '<!DOCTYPE s [<!ENTITY e SYSTEM "file:///etc/passwd">]><s>&e;</s>'],
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
  ["JPEG signs before HTML", Buffer.concat([Buffer.from("ffd8ffe0", "hex"), Buffer.from(SCRIPT)])],
  ["a PDF's sign alone", "%PDF-1.7\n"],
  ["PostScript", "%!PS-Adobe-3.0\n"],
];

const TYPES = ["image/jpeg", "image/png", "image/webp"] as const;

export const disguised = (): HostileFile[] =>
  CONTENTS.flatMap(([what, bytes], index) =>
    [TYPES[index % 3]!, "application/pdf"].map((type) =>
      hostile(`${what} as ${type}`, bytes, type),
    ),
  );
