// Requirement: a table opens whether its cells are parted by commas (RFC 4180), by semicolons, as
// spreadsheets write it where the comma is the decimal sign, or by tabs.

export const DELIMITERS = [",", ";", "\t"] as const;
export type Delimiter = (typeof DELIMITERS)[number];

const RECORDS_MOST = 20;

/**
 * What parts the cells: the sign that stands outside quotes equally often in the most records of
 * the beginning, and of those equal in that the most frequent; a comma where none stands at all.
 */
export function guessDelimiter(beginning: string): Delimiter {
  let best: { delimiter: Delimiter; even: number; count: number } | undefined;
  for (const delimiter of DELIMITERS) {
    const counts = countsOf(beginning, delimiter);
    const count = counts[0] ?? 0;
    if (count === 0) continue;
    const even = counts.filter((one) => one === count).length;
    if (!best || even > best.even || (even === best.even && count > best.count)) {
      best = { delimiter, even, count };
    }
  }
  return best?.delimiter ?? ",";
}

/** How often the sign stands in each of the first records; an unfinished last one is left out. */
function countsOf(text: string, delimiter: string): number[] {
  const counts: number[] = [];
  let [count, quoted, isEmpty] = [0, false, true];
  for (const sign of text) {
    if (sign === '"') quoted = !quoted;
    if (quoted || (sign !== "\n" && sign !== "\r")) {
      if (!quoted && sign === delimiter) count += 1;
      isEmpty = false;
      continue;
    }
    if (!isEmpty) counts.push(count);
    [count, isEmpty] = [0, true];
    if (counts.length === RECORDS_MOST) return counts;
  }
  return counts.length > 0 || isEmpty ? counts : [count];
}
