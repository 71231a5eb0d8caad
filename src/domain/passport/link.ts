// Requirement: a battery's passport is found by the code on the battery (Regulation (EU) 2023/1542
// Article 77(3), from memory); where that is a GS1 Digital Link URI, the serial number in it has to
// be the unit's own, or the passport is of another battery.

import { normaliseSerial } from "../identifiers/check-serial.ts";
import { parseDigitalLink } from "../identifiers/gs1-digital-link.ts";

export type SerialMatch = "same" | "other" | "none";

export interface PassportLink {
  readonly elements: readonly { readonly ai: string; readonly value: string }[];
  /** Application identifier 21 beside the unit's serial; "none" where the URI has none. */
  readonly serial: SerialMatch;
}

export type PassportLinkReading = ({ ok: true } & PassportLink) | { ok: false; problem: string };

/** The elements of a passport's URI, path first, and whether it is of the unit with this serial. */
export function readPassportLink(uri: string, serial: string): PassportLinkReading {
  const read = parseDigitalLink(uri);
  if (!read.ok) return read;
  const elements = [...read.path, ...read.attributes].map(({ ai, value }) => ({ ai, value }));
  const named = elements.find(({ ai }) => ai === "21")?.value;
  const match =
    named === undefined
      ? "none"
      : normaliseSerial(named) === normaliseSerial(serial)
        ? "same"
        : "other";
  return { ok: true, elements, serial: match };
}
