// Requirement: one scan or paste of a label or packing list may hold several serials, in any of
// the forms met on cartons (common practice, no source; GS1 forms: General Specifications 7.8
// and the Digital Link URI syntax). Each serial is given back with how it was read, so that a
// person can see what was taken from where.

import type { Gs1Element } from "./gs1-application-identifiers.ts";
import { parseDigitalLink } from "./gs1-digital-link.ts";
import { parseElementString } from "./gs1-element-string.ts";
import { type LabelPiece, splitLabel } from "./label-pieces.ts";
import { SERIAL_LENGTH_LIMIT } from "./mask.ts";

export interface LabelSerial {
  /** As on the label: case kept, outer spaces dropped. */
  readonly serial: string;
  readonly readAs: LabelPiece["form"];
  /** GTIN-14 it belongs to, where the label says. */
  readonly gtin?: string;
  readonly lot?: string;
}

export interface LabelReading {
  /** In label order, each serial of a GTIN once. */
  readonly serials: readonly LabelSerial[];
  /** Serials that came more than once. */
  readonly repeated: readonly string[];
  /** Pieces that gave no serial, with one sentence why. */
  readonly problems: readonly { readonly text: string; readonly problem: string }[];
}

type PieceReading = { ok: true; serials: LabelSerial[] } | { ok: false; problem: string };

const TEXT_LIMIT = 20_000;
const SERIALS_LIMIT = 500;
const PRINTABLE = /^[!-~]+$/;

/**
 * The serials on a label: element strings (one identifier 21 or several), Digital Link URIs, and
 * plain serials, separated by line ends, tabs, semicolons or commas. At most 20,000 characters
 * and 500 serials; what lies beyond is refused as a problem, not dropped in silence.
 */
export function serialsOnLabel(text: string): LabelReading {
  if (text.length > TEXT_LIMIT) {
    return failed(text, `A label has at most ${TEXT_LIMIT} characters: scan one label at a time.`);
  }
  const found = new Map<string, LabelSerial>();
  const repeated = new Set<string>();
  const problems: { text: string; problem: string }[] = [];
  for (const piece of splitLabel(text)) {
    const reading = readPiece(piece);
    if (!reading.ok) problems.push({ text: piece.text, problem: reading.problem });
    for (const serial of reading.ok ? reading.serials : []) {
      const key = `${serial.gtin ?? ""} ${serial.serial}`;
      if (found.has(key)) repeated.add(serial.serial);
      else found.set(key, serial);
    }
  }
  if (found.size > SERIALS_LIMIT) {
    return failed(text, `More than ${SERIALS_LIMIT} serials: scan one label at a time.`);
  }
  return { serials: [...found.values()], repeated: [...repeated], problems };
}

function failed(text: string, problem: string): LabelReading {
  return { serials: [], repeated: [], problems: [{ text: text.slice(0, 80), problem }] };
}

function readPiece(piece: LabelPiece): PieceReading {
  if (piece.form === "plain") return readPlain(piece.text);
  if (piece.form === "digital-link") {
    const link = parseDigitalLink(piece.text);
    if (!link.ok) return link;
    return fromElements([...link.path, ...link.attributes], piece.form);
  }
  const string = parseElementString(piece.text, { repeats: "keep" });
  return string.ok ? fromElements(string.elements, piece.form) : string;
}

/** A GTIN or lot goes with the serials after it; the only lot of the only GTIN with all of them. */
function fromElements(elements: readonly Gs1Element[], readAs: LabelPiece["form"]): PieceReading {
  const lots = elements.filter(({ ai }) => ai === "10");
  const isOneItem = elements.filter(({ ai }) => ai === "01").length <= 1;
  const onlyLot = isOneItem && lots.length === 1 ? lots[0]?.value : undefined;
  const serials: LabelSerial[] = [];
  let gtin: string | undefined;
  let lot = onlyLot;
  for (const { ai, value } of elements) {
    if (ai === "01") [gtin, lot] = [value, onlyLot];
    if (ai === "10") lot = value;
    if (ai !== "21") continue;
    serials.push({ serial: value, readAs, ...(gtin && { gtin }), ...(lot && { lot }) });
  }
  if (serials.length > 0) return { ok: true, serials };
  return { ok: false, problem: "This code holds no serial (21): scan the code beside the serial." };
}

function readPlain(text: string): PieceReading {
  if (text.length > SERIAL_LENGTH_LIMIT) {
    return { ok: false, problem: `A serial has at most ${SERIAL_LENGTH_LIMIT} characters.` };
  }
  if (!PRINTABLE.test(text)) {
    return { ok: false, problem: "A serial has no spaces or accents: check this line." };
  }
  return { ok: true, serials: [{ serial: text, readAs: "plain" }] };
}
