// Requirement: a cell that somebody else typed never runs as a formula in the spreadsheet of whoever
// opens an export. OWASP, "CSV Injection": cells that begin with =, +, -, @, a tab or a line end, or
// with the full-width forms of the four signs, are given an apostrophe in front.

const STARTS = /^[=+\-@\t\r\n＝＋－＠]/;
const DEFUSED = /^'[=+\-@\t\r\n＝＋－＠]/;

/** The text as it can stand in a cell of a spreadsheet. */
export const defuseCell = (text: string): string => (STARTS.test(text) ? `'${text}` : text);

/** The text of a cell that `defuseCell` may have been over: what we wrote comes back as it was. */
export const plainCell = (text: string): string => (DEFUSED.test(text) ? text.slice(1) : text);
