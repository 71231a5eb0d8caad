// What a file says is kept beside its rows to be shown and mended, whatever stands in it. U+0000 is
// the one character that a database does not store (PostgreSQL's manual, 8.3).

/** The text as it can be kept for showing; a row with such a character in a field is a bad one. */
export const shownCell = (text: string): string => text.replaceAll("\u0000", "\ufffd");
