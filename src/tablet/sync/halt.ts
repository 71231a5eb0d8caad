// Why a round did not get through, and what the person is told.
import type { SyncState } from "../contract.ts";
import type { Reply } from "./reply.ts";

export interface Halt {
  state: SyncState;
  sentence: string;
  /** What the service asked for; nobody may cut it short. */
  retryAfterMs?: number | undefined;
}

export const SENTENCES = {
  offline: "No signal. Everything is kept on this tablet and goes by itself later.",
  stranger:
    "The network answers instead of the service, as a sign-on page does. Open the network's own " +
    "page to sign on to it, or use another network. Nothing was sent.",
  busy: "The service is busy or has a fault. It is tried again by itself; nothing is lost.",
  outdated:
    "The service does not read what this version of the page sends. Load the page again with " +
    "signal; until then everything stays kept here.",
} as const;

type Unanswered = Exclude<Reply, { kind: "answered" }>;

export function haltOf(reply: Unanswered): Halt {
  switch (reply.kind) {
    case "offline":
    case "stranger":
      return { state: reply.kind, sentence: SENTENCES[reply.kind] };
    case "signed-out":
    case "forbidden":
      return { state: "sign-in", sentence: `${reply.sentence} What is kept here is not lost.` };
    case "busy":
      return { state: "busy", sentence: SENTENCES.busy, retryAfterMs: reply.retryAfterMs };
    case "too-large":
    case "refused":
      return { state: "outdated", sentence: SENTENCES.outdated };
  }
}

export const stranger: Halt = { state: "stranger", sentence: SENTENCES.stranger };
export const outdated: Halt = { state: "outdated", sentence: SENTENCES.outdated };
/** The service answered in its own form, but with nothing that leads on. */
export const stuck: Halt = { state: "busy", sentence: SENTENCES.busy };
