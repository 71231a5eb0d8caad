import { safeFileName } from "../../domain/file-names/safe-name.ts";

const ENDINGS: Readonly<Record<string, string>> = {
  "application/pdf": ".pdf",
  "image/jpeg": ".jpg",
  "image/png": ".png",
};

/**
 * Content-Disposition of a file to be saved, never shown in the page's own origin (RFC 6266): a
 * plain name for old readers, and the name itself in the form of RFC 8187.
 */
export function attachmentNamed(name: string, mediaType: string): string {
  const ending = ENDINGS[mediaType] ?? "";
  const stem = name.replace(/\.(pdf|jpe?g|png)$/i, "");
  const whole = safeFileName(stem, ending);
  const plain = whole.normalize("NFKD").replaceAll(/[^A-Za-z0-9 ._-]/g, "_");
  const encoded = encodeURIComponent(whole).replaceAll(
    /['()*]/g,
    (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`,
  );
  return `attachment; filename="${plain}"; filename*=UTF-8''${encoded}`;
}
