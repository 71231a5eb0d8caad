import { joined } from "./bag-source.ts";

/** A file of which any part can be read: of a disk, or one that a browser was handed. */
export interface RandomAccess {
  /** As people know it. */
  name: string;
  size: number;
  /** The bytes from `start` up to, not including, `end`, in parts. */
  read(start: number, end: number): AsyncIterable<Uint8Array>;
}

/** The file is none that a bag is sent in; the sentence is for an operator. */
export class Unreadable extends Error {
  readonly code: "cut-off" | "compressed" | "odd";
  readonly values: Readonly<Record<string, string>>;

  constructor(code: Unreadable["code"], values: Unreadable["values"], sentence: string) {
    super(sentence);
    this.code = code;
    this.values = values;
  }
}

export const cutOff = (file: string): Error =>
  new Unreadable(
    "cut-off",
    { file },
    `${file} is no whole ZIP file. Fetch it again, or name the folder it was unpacked to.`,
  );

const WINDOW_BYTES = 64 * 1024;

/** Reads short pieces; those that lie close together by one read. */
export function pieces(file: RandomAccess): (start: number, length: number) => Promise<DataView> {
  let window = new Uint8Array(0);
  let from = 0;
  return async (start, length) => {
    if (start < 0 || start + length > file.size) throw cutOff(file.name);
    if (start < from || start + length > from + window.length) {
      const until = Math.min(file.size, start + Math.max(length, WINDOW_BYTES));
      window = new Uint8Array(await whole(file, start, until));
      from = start;
    }
    return new DataView(window.buffer, start - from, length);
  };
}

async function whole(file: RandomAccess, start: number, end: number): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  for await (const part of file.read(start, end)) parts.push(part);
  const length = parts.reduce((sum, part) => sum + part.length, 0);
  if (length !== end - start) throw cutOff(file.name);
  return joined(parts, length);
}
