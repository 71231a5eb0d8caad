// How sending stands, in a few words for the band and in full for the outbox.

import { phrase } from "../language/spoken.ts";
import { sizeOf } from "../language/written.ts";
import type { TabletPage } from "./page.ts";

/** "3 waiting", "Sign in again, 3 waiting", "All sent". */
export function sendingWords(page: TabletPage): string {
  const { waiting, photosWaiting } = page.counts;
  const { state } = page.parts.sync.status();
  const left = waiting + photosWaiting;
  if (left === 0) {
    return phrase(`tabletOutbox.short.${state === "sending" ? "settled" : state}`);
  }
  const short = phrase(`tabletOutbox.short.${state}`);
  return state === "sign-in" || state === "outdated"
    ? phrase("tabletOutbox.shortAndWaiting", { short, count: left })
    : phrase("tabletOutbox.waiting", { count: left });
}

/** "14 kept on this tablet, 0 waiting." */
export function countWords({ counts }: TabletPage): string {
  const { kept, waiting, photosWaiting, photoBytesWaiting } = counts;
  if (photosWaiting === 0) return phrase("tabletOutbox.kept", { kept, waiting });
  const photos = { photos: photosWaiting, size: sizeOf(photoBytesWaiting) };
  return phrase("tabletOutbox.keptAndPhotos", { kept, waiting, ...photos });
}
