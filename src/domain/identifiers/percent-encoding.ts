// Requirement: GS1 values use signs that mean something in a web address. Source: RFC 3986 2.1
// and 2.3; in a query "+" stands for a space (the form encoding browsers use).

const UNRESERVED = /[A-Za-z0-9._~-]/;

/** Every character but the unreserved ones of RFC 3986 as %XX; for ASCII text. */
export function percentEncode(text: string): string {
  let encoded = "";
  for (const character of text) {
    const code = character.charCodeAt(0).toString(16).toUpperCase().padStart(2, "0");
    encoded += UNRESERVED.test(character) ? character : `%${code}`;
  }
  return encoded;
}

/**
 * The text meant, each %XX taken as one character of that code (GS1 values are ASCII, so a code
 * above 7F is refused later by its character). Undefined for a % without two hex digits.
 */
export function percentDecode(text: string, isQuery: boolean): string | undefined {
  if (/%(?![0-9A-Fa-f]{2})/.test(text)) return undefined;
  const spaced = isQuery ? text.replaceAll("+", " ") : text;
  return spaced.replace(/%[0-9A-Fa-f]{2}/g, (triplet) =>
    String.fromCharCode(Number.parseInt(triplet.slice(1), 16)),
  );
}
