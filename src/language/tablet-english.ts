// Every text of the tablet's page in English; the page has these with it from the start.
import { tabletChange } from "./en/tablet-change.ts";
import { tabletInput } from "./en/tablet-input.ts";
import { tabletInstrument } from "./en/tablet-instrument.ts";
import { tabletItem } from "./en/tablet-item.ts";
import { tabletOutbox } from "./en/tablet-outbox.ts";
import { tabletPage } from "./en/tablet-page.ts";
import { tabletSignIn } from "./en/tablet-sign-in.ts";
import { tabletSync } from "./en/tablet-sync.ts";
import { tabletVisit } from "./en/tablet-visit.ts";

export const TABLET_ENGLISH = {
  ...tabletChange,
  ...tabletInput,
  ...tabletInstrument,
  ...tabletItem,
  ...tabletOutbox,
  ...tabletPage,
  ...tabletSignIn,
  ...tabletSync,
  ...tabletVisit,
} as const;

export type TabletKey = keyof typeof TABLET_ENGLISH;
export type TabletTexts = Readonly<Record<TabletKey, string>>;
