import type { SyncStatus } from "../contract.ts";
import type { Halt } from "./halt.ts";

export const NOT_ASKED: SyncStatus = {
  state: "offline",
  sentence: "The service has not been asked yet.",
};

/** @param retryAt when it is tried again by itself, where that is not at the next tick */
export function statusAfter(
  halt: Halt | undefined,
  { lastContactAt }: SyncStatus,
  retryAt: string | undefined,
): SyncStatus {
  return {
    state: halt?.state ?? "settled",
    sentence: halt?.sentence ?? "Everything kept on this tablet is with the office.",
    ...(lastContactAt === undefined ? {} : { lastContactAt }),
    ...(retryAt === undefined ? {} : { retryAt }),
  };
}
