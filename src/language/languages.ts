/** The languages that pages and mails can be read in. */
export const LANGUAGES = ["en", "es"] as const;
export type Language = (typeof LANGUAGES)[number];

/**
 * A made-up language: every text of the catalogue in brackets, longer and accented. What shows
 * without brackets never came from the catalogue. A browser that asks for "en-XA" gets it.
 */
export const PSEUDO = "en-XA";
export type ShownLanguage = Language | typeof PSEUDO;

export const LANGUAGE_NAMES: Readonly<Record<Language, string>> = {
  en: "English",
  es: "Español",
};

export const isLanguage = (text: unknown): text is Language =>
  typeof text === "string" && (LANGUAGES as readonly string[]).includes(text);

/** How numbers and dates are written. */
export const LOCALES: Readonly<Record<ShownLanguage, string>> = {
  en: "en-GB",
  es: "es-ES",
  [PSEUDO]: "en-GB",
};

/** The first of the languages asked for (RFC 9110 section 12.5.4) that we have. */
export function languageAskedFor(header: string | undefined): ShownLanguage | undefined {
  const wanted = (header ?? "")
    .slice(0, 500)
    .split(",")
    .map((part) => {
      const [tag = "", ...parameters] = part.trim().split(";");
      const quality = parameters.map((text) => /^\s*q=([\d.]+)$/.exec(text)?.[1]).find(Boolean);
      return { tag, quality: quality === undefined ? 1 : Number(quality) };
    })
    .filter(({ quality }) => quality > 0)
    .sort((left, right) => right.quality - left.quality);
  for (const { tag } of wanted) {
    if (tag === PSEUDO) return PSEUDO;
    const language = tag.split("-")[0]?.toLowerCase();
    if (isLanguage(language)) return language;
  }
  return undefined;
}
