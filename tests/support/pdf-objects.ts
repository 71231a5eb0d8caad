// A PDF's raw objects (ISO 32000-1, 7.3 and 7.5), read without what a viewer forgives.

export class Name {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}
export class Ref {
  readonly number: number;
  constructor(number: number) {
    this.number = number;
  }
}
/** A string's bytes. */
export class Bytes {
  readonly bytes: Buffer;
  constructor(bytes: Buffer) {
    this.bytes = bytes;
  }
  /** UTF-16 with a byte order mark, or PDFDocEncoding, of which only the Latin part is read. */
  get text(): string {
    const { bytes } = this;
    const isUtf16 = bytes[0] === 0xfe && bytes[1] === 0xff;
    return isUtf16
      ? Buffer.from(bytes.subarray(2)).swap16().toString("utf16le")
      : bytes.toString("latin1");
  }
}
export type Dict = { [key: string]: Value };
export interface Stream {
  dict: Dict;
  raw: Buffer;
}
export type Value = number | boolean | null | Name | Ref | Bytes | Value[] | Dict | Stream | Word;
/** An operator of a content stream, or a keyword. */
export class Word {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}

const SPACE = /[\0\t\n\f\r ]/;
const REGULAR = /[^\0\t\n\f\r ()<>[\]{}/%]/;

export class Reader {
  at: number;
  readonly #text: string;

  constructor(bytes: Buffer, at = 0) {
    this.#text = bytes.toString("latin1");
    this.at = at;
  }

  /** Undefined at the end. */
  next(): Value | undefined {
    this.#skip();
    const sign = this.#text[this.at];
    if (sign === undefined) return undefined;
    if (sign === "/") return this.#name();
    if (sign === "(") return this.#literal();
    if (sign === "[") return this.#list();
    if (this.#text.startsWith("<<", this.at)) return this.#dict();
    if (sign === "<") return this.#hex();
    if (/[\]>]/.test(sign)) return new Word(this.#take(sign === ">" ? 2 : 1));
    return this.#plain();
  }

  #take(length: number): string {
    this.at += length;
    return this.#text.slice(this.at - length, this.at);
  }

  #skip(): void {
    for (;;) {
      while (SPACE.test(this.#text[this.at] ?? "")) this.at += 1;
      if (this.#text[this.at] !== "%") return;
      while (!/[\r\n]/.test(this.#text[this.at] ?? "\n")) this.at += 1;
    }
  }

  #run(): string {
    const from = this.at;
    while (REGULAR.test(this.#text[this.at] ?? " ")) this.at += 1;
    return this.#text.slice(from, this.at);
  }

  #name(): Name {
    this.at += 1;
    const hex = (_all: string, code: string) => String.fromCharCode(Number.parseInt(code, 16));
    return new Name(this.#run().replaceAll(/#([0-9A-Fa-f]{2})/g, hex));
  }

  #plain(): Value {
    const run = this.#run();
    if (run === "") throw new Error(`a stray ${JSON.stringify(this.#text[this.at])} at ${this.at}`);
    if (/^[+-]?(?:\d+\.?\d*|\.\d+)$/.test(run)) return this.#numberOrRef(run);
    if (run === "true" || run === "false") return run === "true";
    return run === "null" ? null : new Word(run);
  }

  #numberOrRef(run: string): Value {
    const after = /^[\0\t\n\f\r ]+\d+[\0\t\n\f\r ]+R(?![A-Za-z])/.exec(
      this.#text.slice(this.at, this.at + 24),
    );
    if (!after || !/^\d+$/.test(run)) return Number(run);
    this.at += after[0].length;
    return new Ref(Number(run));
  }

  #literal(): Bytes {
    const out: number[] = [];
    let depth = 1;
    this.at += 1;
    for (;;) {
      const sign = this.#take(1);
      if (sign === "") throw new Error("a string has no end");
      if (sign === "(") depth += 1;
      if (sign === ")" && --depth === 0) return new Bytes(Buffer.from(out));
      if (sign === "\\") out.push(...this.#escaped());
      else out.push(sign.charCodeAt(0));
    }
  }

  #escaped(): number[] {
    const octal = /^[0-7]{1,3}/.exec(this.#text.slice(this.at, this.at + 3));
    if (octal) return [Number.parseInt(this.#take(octal[0].length), 8)];
    const sign = this.#take(1);
    const known = { n: 10, r: 13, t: 9, b: 8, f: 12 }[sign];
    return sign === "\n" ? [] : [known ?? sign.charCodeAt(0)];
  }

  #hex(): Bytes {
    const end = this.#text.indexOf(">", this.at);
    const digits = this.#text.slice(this.at + 1, end).replaceAll(/\s/g, "");
    this.at = end + 1;
    if (!/^(?:[0-9A-Fa-f]{2})*$/.test(digits)) throw new Error("6.1.6: an odd hexadecimal string");
    return new Bytes(Buffer.from(digits, "hex"));
  }

  #list(): Value[] {
    this.at += 1;
    const out: Value[] = [];
    for (;;) {
      const value = this.next();
      if (value === undefined) throw new Error("an array has no end");
      if (value instanceof Word && value.text === "]") return out;
      out.push(value);
    }
  }

  #dict(): Dict {
    this.at += 2;
    const out: Dict = Object.create(null);
    for (;;) {
      const key = this.next();
      if (key instanceof Word && key.text === ">>") return out;
      if (!(key instanceof Name)) throw new Error(`a key of a dictionary is no name at ${this.at}`);
      const value = this.next();
      if (value === undefined) throw new Error("a dictionary has no end");
      out[key.text] = value;
    }
  }
}
