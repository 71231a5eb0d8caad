// Requirement: a document's metadata is well-formed XML (ISO 19005-2, 6.6.2.1), whatever a firm is
// called. pdfkit writes its title and author into the XML as they are.
interface Metadata {
  info: Record<string, unknown>;
  _addInfo(): void;
}

/** Escapes what goes into the XML alone; the information dictionary keeps it as it is. */
export function escapeMetadata(pdf: PDFKit.PDFDocument): void {
  const own = pdf as unknown as Metadata;
  const add = own._addInfo;
  own._addInfo = function addEscaped(this: Metadata): void {
    const { info } = this;
    const entries = Object.entries(info).map(([name, value]) => [
      name,
      value instanceof Date ? value : escaped(String(value)),
    ]);
    this.info = Object.fromEntries(entries);
    add.call(this);
    this.info = info;
  };
}

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;" };

const escaped = (text: string): string =>
  text.replaceAll(/[&<>]/g, (sign) => ENTITIES[sign] ?? sign);

/** Without what XML 1.0 has no way to write (2.2, Char). */
export const writable = (text: string): string =>
  text.toWellFormed().replaceAll(/[\p{Cc}\uFFFE\uFFFF]/gu, " ");
