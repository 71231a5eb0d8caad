// Why a round did not get through, and what the person is told.
import type { SyncState } from "../contract.ts";
import { phrase } from "../language/spoken.ts";
import type { Reply } from "./reply.ts";

export interface Halt {
  state: SyncState;
  sentence: string;
  /** What the service asked for; nobody may cut it short. */
  retryAfterMs?: number | undefined;
}

type Unanswered = Exclude<Reply, { kind: "answered" }>;

export function haltOf(reply: Unanswered): Halt {
  switch (reply.kind) {
    case "offline":
    case "stranger":
      return { state: reply.kind, sentence: phrase(`tabletSync.${reply.kind}`) };
    case "signed-out":
    case "forbidden":
      return {
        state: "sign-in",
        sentence: phrase("tabletSync.notLost", { sentence: reply.sentence }),
      };
    case "busy":
      return { ...stuck(), retryAfterMs: reply.retryAfterMs };
    case "too-large":
    case "refused":
      return outdated();
  }
}

export const stranger = (): Halt => ({
  state: "stranger",
  sentence: phrase("tabletSync.stranger"),
});
export const outdated = (): Halt => ({
  state: "outdated",
  sentence: phrase("tabletSync.outdated"),
});
/** The service answered in its own form, but with nothing that leads on. */
export const stuck = (): Halt => ({ state: "busy", sentence: phrase("tabletSync.busy") });
