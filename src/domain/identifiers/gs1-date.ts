// Requirement: a GS1 date has two digits for the year and may leave the day out. Source: GS1
// General Specifications 7.12 (century: 51 to 99 years ahead of now is the century before, 50
// to 99 years behind is the next) and 3.4 (day 00: the last day of the month); from memory.

/**
 * The ISO date of a GS1 YYMMDD value, as seen in the year `currentYear` (2026); undefined when
 * there is no such date.
 */
export function gs1Date(value: string, currentYear: number): string | undefined {
  if (!/^\d{6}$/.test(value)) return undefined;
  const [shortYear, month, day] = [0, 2, 4].map((at) => Number(value.slice(at, at + 2)));
  if (shortYear === undefined || month === undefined || day === undefined) return undefined;
  const ahead = shortYear - (currentYear % 100);
  const century = Math.floor(currentYear / 100) + (ahead >= 51 ? -1 : ahead <= -50 ? 1 : 0);
  const year = century * 100 + shortYear;
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const days = [31, isLeap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
  if (days === undefined || day > days) return undefined;
  const parts = [month, day === 0 ? days : day].map((part) => String(part).padStart(2, "0"));
  return `${String(year).padStart(4, "0")}-${parts.join("-")}`;
}
