// What the store asks of the browser besides its database, so that tests can hand in their own.
import { uuidv7 } from "uuidv7";
import type { Channel } from "./changes.ts";
import { browserMarker, type MarkerPlace } from "./marker.ts";
import type { StorageRoom } from "./room.ts";

export interface Platform {
  /** Milliseconds since 1970, by the tablet's clock, which anybody can set. */
  now(): number;
  /** Of the page's own clock, which nobody can. */
  monotonicMs(): number;
  newId(): string;
  storage: StorageRoom | undefined;
  marker: MarkerPlace;
  channel: Channel | undefined;
}

export const browserPlatform = (name: string): Platform => ({
  now: () => Date.now(),
  monotonicMs: () => performance.now(),
  newId: uuidv7,
  storage: globalThis.navigator?.storage,
  marker: browserMarker(name),
  channel: globalThis.BroadcastChannel && new BroadcastChannel(name),
});
