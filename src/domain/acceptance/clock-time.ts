// Requirement: when a test was made, or may be, is told in the site's own time and so that an hour
// that comes twice is not mistaken (IANA time zones; RFC 3339 instants).
import { Temporal } from "temporal-polyfill";
import { localTime } from "../dates/zone-time.ts";

/** "2 h 5 min 3 s"; a part of a second is told, so that no time equals a limit it misses. */
export function duration(ms: number): string {
  const seconds = Math.floor(ms / 1000);
  const parts = [
    [Math.floor(seconds / 3600), "h"],
    [Math.floor(seconds / 60) % 60, "min"],
    [(seconds % 60) + (ms % 1000) / 1000, "s"],
  ] as const;
  const told = parts.filter(([count]) => count > 0).map(([count, unit]) => `${count} ${unit}`);
  return told.join(" ") || "0 s";
}

/** RFC 3339 in UTC. */
export const instantText = (ms: number): string =>
  Temporal.Instant.fromEpochMilliseconds(ms).toString();

const MINUTE_MS = 60_000;

/**
 * "2026-10-25 01:30:00 (UTC+1)": the site's time, with its offset because an hour may come twice.
 */
export function clockTime(ms: number, timeZone: string): string {
  const local = localTime(instantText(ms), timeZone);
  const wholeMs = Math.floor(ms / 1000) * 1000;
  const offsetMin = Math.round((Date.parse(`${local}Z`) - wholeMs) / MINUTE_MS);
  const size = Math.abs(offsetMin);
  const minutes = size % 60 === 0 ? "" : `:${String(size % 60).padStart(2, "0")}`;
  const offset = size === 0 ? "" : `${offsetMin < 0 ? "−" : "+"}${Math.floor(size / 60)}${minutes}`;
  return `${local.replace("T", " ")} (UTC${offset})`;
}
