/** RFC 3339 with the offset of the place: "2026-03-02T09:41:07.120+01:00". */
export function localTimestamp(date: Date = new Date()): string {
  const offsetMin = -date.getTimezoneOffset();
  const size = Math.abs(offsetMin);
  const local = new Date(date.getTime() + offsetMin * 60_000).toISOString().slice(0, -1);
  const part = (value: number): string => String(value).padStart(2, "0");
  return `${local}${offsetMin < 0 ? "-" : "+"}${part(Math.floor(size / 60))}:${part(size % 60)}`;
}
