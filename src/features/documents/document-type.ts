// A file is what its bytes say, not what its sender calls it. Nothing here is ever shown inside a
// page: it is handed out to be saved, so a picture need not be re-encoded nor a PDF looked into.
import { readPicture } from "../photos/picture.ts";
import type { DOCUMENT_TYPES } from "./schemas.ts";

export type DocumentType = (typeof DOCUMENT_TYPES)[number];

export type TypeReading = { ok: true; mediaType: DocumentType } | { ok: false; problem: string };

/**
 * Readers take "%PDF-" among the first 1,024 bytes (ISO 32000-1 annex H.3, from memory); we at 0.
 */
const PDF_BEGINS = Buffer.from("%PDF-");
const PDF_ENDS = "%%EOF";
const PDF_TAIL_BYTES = 1024;

export async function readDocumentType(bytes: Buffer): Promise<TypeReading> {
  if (bytes.subarray(0, PDF_BEGINS.length).equals(PDF_BEGINS)) {
    const tail = bytes.subarray(-PDF_TAIL_BYTES).toString("latin1");
    if (tail.includes(PDF_ENDS)) return { ok: true, mediaType: "application/pdf" };
    return { ok: false, problem: "The PDF is cut off: its end is missing. Send it again whole." };
  }
  const reading = await readPicture(bytes);
  const type = reading.ok ? reading.picture.mediaType : undefined;
  if (type === "image/jpeg" || type === "image/png") return { ok: true, mediaType: type };
  return { ok: false, problem: "The file is not a whole PDF, JPEG or PNG. Send one of those." };
}
