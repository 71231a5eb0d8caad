import fc from "fast-check";

/** Zones of both hemispheres, with half-hour, quarter-hour and midnight changes, and none. */
export const ZONES = [
  "Europe/Berlin",
  "Europe/London",
  "America/New_York",
  "America/Phoenix",
  "America/Sao_Paulo",
  "Australia/Sydney",
  "Australia/Lord_Howe",
  "Pacific/Auckland",
  "Pacific/Chatham",
  "Asia/Kathmandu",
  "Africa/Casablanca",
  "UTC",
];

/** RFC 3339 instants of the years 2000 to 2037, to the second. */
export const anyInstant = fc
  .integer({ min: Date.UTC(2000, 0, 1) / 1000, max: Date.UTC(2037, 11, 31) / 1000 })
  .map((seconds) => new Date(seconds * 1000).toISOString().replace(".000Z", "Z"));
