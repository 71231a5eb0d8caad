import type { SyncStatus } from "../contract.ts";
import { phrase } from "../language/spoken.ts";
import type { Halt } from "./halt.ts";

export const notAsked = (): SyncStatus => ({
  state: "offline",
  sentence: phrase("tabletSync.notAsked"),
});

/** @param retryAt when it is tried again by itself, where that is not at the next tick */
export function statusAfter(
  halt: Halt | undefined,
  { lastContactAt }: SyncStatus,
  retryAt: string | undefined,
): SyncStatus {
  return {
    state: halt?.state ?? "settled",
    sentence: halt?.sentence ?? phrase("tabletSync.settled"),
    ...(lastContactAt === undefined ? {} : { lastContactAt }),
    ...(retryAt === undefined ? {} : { retryAt }),
  };
}
