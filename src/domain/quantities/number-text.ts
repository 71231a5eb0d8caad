// Requirement: a number is read only where it has one reading. "1,500" is fifteen hundred in one
// country and one and a half in another, so it is refused; ISO 80000-1 7.3.2 allows comma or
// point as decimal mark and only a small space between groups of three digits.

/** A number in plain form ("1500", "-2.75", never "-0"), or one sentence saying what to write. */
export type NumberReading = { ok: true; decimalText: string } | { ok: false; problem: string };

/** Signs that may stand between groups of three digits: no-break, narrow no-break, thin space. */
const GROUPED = /^\d{1,3}(?:[\u00A0\u202F\u2009]\d{3})+(?=$|[.,])/;
const GROUP_SPACE = /[\u00A0\u202F\u2009]/;
const EXPONENT_LIMIT = 15;

/**
 * Reads an unsigned number token made of digits, points, commas and group spaces.
 * The decimal mark is the point, or a single comma that cannot be a thousands separator.
 * Digits after the mark are kept as typed ("1.50" stays "1.50").
 */
export function readNumber(token: string, exponent = 0): NumberReading {
  const grouped = GROUPED.test(token);
  const joined = grouped ? token.split(GROUP_SPACE).join("") : token;
  if (GROUP_SPACE.test(joined)) return refused(token, "has a space inside");
  const marks = joined.replace(/\d/g, "");
  if (marks.length > 1) return refused(token, "has more than one point or comma");
  if (marks === "," && !grouped && looksGrouped(joined)) return ambiguousComma(joined);
  const [whole = "", part = ""] = joined.replace(",", ".").split(".");
  if (whole === "" && part === "") return refused(token, "has no digits");
  const trimmed = whole.replace(/^0+(?=\d)/, "") || "0";
  return scaled(trimmed, part, exponent);
}

/** One to three digits not starting with 0, a comma, exactly three digits. */
function looksGrouped(text: string): boolean {
  return /^[1-9]\d{0,2},\d{3}$/.test(text);
}

function ambiguousComma(text: string): NumberReading {
  const plain = text.replace(",", "");
  const decimal = text.replace(",", ".");
  return {
    ok: false,
    problem: `"${text}" could be ${plain} or ${decimal}: write it as ${plain} or as ${decimal}.`,
  };
}

function refused(token: string, why: string): NumberReading {
  const problem = `"${token}" ${why}: write digits with at most one decimal point, such as 1500.5.`;
  return { ok: false, problem };
}

function scaled(whole: string, part: string, exponent: number): NumberReading {
  if (Math.abs(exponent) > EXPONENT_LIMIT) return outOfRange();
  const digits = whole + part;
  const point = whole.length + exponent;
  const padded = point <= 0 ? "0".repeat(1 - point) + digits : digits.padEnd(point, "0");
  const at = Math.max(point, 1);
  const before = padded.slice(0, at).replace(/^0+(?=\d)/, "");
  const after = padded.slice(at);
  if (before.length > EXPONENT_LIMIT) return outOfRange();
  return { ok: true, decimalText: after === "" ? before : `${before}.${after}` };
}

function outOfRange(): NumberReading {
  const problem = "The number is beyond what any instrument reads: check it and its unit.";
  return { ok: false, problem };
}
