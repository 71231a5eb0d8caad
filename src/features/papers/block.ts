// What a paper says, apart from how it is drawn: plain values, which a thread of its own can take.
import type { Language } from "../../language/languages.ts";

export const PAPER_SIZES = ["a4", "letter"] as const;
export type PaperSize = (typeof PAPER_SIZES)[number];

export interface Column {
  title: string;
  /** Share of the width beside the other columns. */
  share: number;
}

export interface PaperPicture {
  jpeg: Uint8Array;
  widthPx: number;
  heightPx: number;
  /** What is on it, for whoever cannot see it. */
  alt: string;
  lines: readonly string[];
}

export type Block =
  | { kind: "heading"; level: 1 | 2 | 3; text: string }
  | { kind: "text"; text: string }
  | { kind: "list"; items: readonly string[] }
  /** What must not be missed: framed, with a heading of its own. */
  | { kind: "caution"; title: string; items: readonly string[] }
  | { kind: "facts"; rows: readonly (readonly [label: string, value: string])[] }
  | { kind: "table"; columns: readonly Column[]; rows: readonly (readonly string[])[] }
  /** The firm's mark, at the head of the first page. */
  | { kind: "mark"; picture: Omit<PaperPicture, "lines"> }
  | { kind: "pictures"; pictures: readonly PaperPicture[] }
  | { kind: "address-square"; address: string; alt: string; lines: readonly string[] };

export interface Paper {
  title: string;
  language: Language;
  size: PaperSize;
  /** When the record last changed; stands for the time of making, so that bytes repeat. */
  at: string;
  author: string;
  /** Of the title and of the rule at the head of each page; legible on white. */
  colour: string;
  /** Small, at the head of each page. */
  header: string;
  /** Across each page of a paper that is not final. */
  draft: string | undefined;
  /** Said at the end where a sign has no shape in the font. */
  unprintable: string;
  blocks: readonly Block[];
}
