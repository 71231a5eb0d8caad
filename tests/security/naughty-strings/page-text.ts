const NAMED: Record<string, string> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

/** The characters that references in HTML stand for (WHATWG HTML, 13.2.5.72 to 80). */
export const decoded = (html: string): string =>
  html.replaceAll(/&(?:#x([0-9a-f]+)|#(\d+)|(\w+));/gi, (all, hex, decimal, name) => {
    if (name) return NAMED[name] ?? all;
    return String.fromCodePoint(hex ? Number.parseInt(hex, 16) : Number(decimal));
  });

/**
 * What stands between the tags of a page and in its attributes, each piece by itself: a text that
 * got out of its place is in no piece whole.
 */
export function piecesOf(page: string): string[] {
  const pieces: string[] = [];
  const part =
    /<!--.*?-->|<![^>]*>|<\/?[a-z][\w-]*((?:\s+[\w-]+(?:="[^"<>]*")?)*)\s*\/?>|([^<]+)/gsy;
  for (let at = 0; at < page.length; at = part.lastIndex) {
    part.lastIndex = at;
    const found = part.exec(page);
    if (!found) throw new Error(`no page of ours: ${page.slice(at, at + 200)}`);
    const [, attributes, text] = found;
    if (text !== undefined) pieces.push(decoded(text));
    for (const [, value] of (attributes ?? "").matchAll(/="([^"]*)"/g)) {
      pieces.push(decoded(value ?? ""));
    }
  }
  return pieces;
}

/** The names of the tags of a page with their attributes' names, in order. */
export const tagsOf = (page: string): string[] =>
  [...page.matchAll(/<\/?([a-z][\w-]*)((?:\s+[\w-]+(?:="[^"]*")?)*)/gi)].map(([, name, rest]) =>
    [
      name,
      ...(rest ?? "")
        .replaceAll(/="[^"]*"/g, "")
        .trim()
        .split(/\s+/),
    ]
      .join(" ")
      .trim(),
  );
