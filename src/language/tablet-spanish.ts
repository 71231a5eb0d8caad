// Every text of the tablet's page in Spanish; the page fetches these for those who read them.
import { tabletChange } from "./es/tablet-change.ts";
import { tabletInput } from "./es/tablet-input.ts";
import { tabletInstrument } from "./es/tablet-instrument.ts";
import { tabletItem } from "./es/tablet-item.ts";
import { tabletOutbox } from "./es/tablet-outbox.ts";
import { tabletPage } from "./es/tablet-page.ts";
import { tabletSignIn } from "./es/tablet-sign-in.ts";
import { tabletSync } from "./es/tablet-sync.ts";
import { tabletVisit } from "./es/tablet-visit.ts";
import type { TabletTexts } from "./tablet-english.ts";

export const TABLET_SPANISH: TabletTexts = {
  ...tabletChange,
  ...tabletInput,
  ...tabletInstrument,
  ...tabletItem,
  ...tabletOutbox,
  ...tabletPage,
  ...tabletSignIn,
  ...tabletSync,
  ...tabletVisit,
};
