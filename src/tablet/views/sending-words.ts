// How sending stands, in a few words for the band and in full for the outbox.
import type { SyncState } from "../contract.ts";
import type { TabletPage } from "./page.ts";

const SHORT: Readonly<Record<SyncState, string>> = {
  settled: "All sent",
  sending: "Sending",
  offline: "No signal",
  "sign-in": "Sign in again",
  stranger: "Not our network",
  busy: "Will try again",
  outdated: "New version",
};

/** "3 waiting", "Sign in again, 3 waiting", "All sent". */
export function sendingWords(page: TabletPage): string {
  const { waiting, photosWaiting } = page.counts;
  const { state } = page.parts.sync.status();
  const left = waiting + photosWaiting;
  const short = SHORT[state];
  if (left === 0) return state === "sending" ? "All sent" : short;
  return state === "sign-in" || state === "outdated"
    ? `${short}, ${left} waiting`
    : `${left} waiting`;
}

/** "14 kept on this tablet, 0 waiting." */
export function countWords({ counts }: TabletPage): string {
  const { kept, waiting, photosWaiting, photoBytesWaiting } = counts;
  const what = photosWaiting === 1 ? "photo" : "photos";
  const size = sizeWords(photoBytesWaiting);
  const photos = photosWaiting === 0 ? "" : `, and ${photosWaiting} ${what} (${size})`;
  return `${kept} kept on this tablet, ${waiting} waiting${photos}.`;
}

/** "1.4 MB", "310 kB". */
export const sizeWords = (bytes: number): string =>
  bytes < 1e6 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
