// One round: readings first, then photos, then what comes next. Where one of them cannot get
// through for a reason of its own, the others still do.

import type { Profile } from "../contract.ts";
import { phrase } from "../language/spoken.ts";
import { nameOf } from "../store/keep-refused.ts";
import type { Sending } from "../store/sending.ts";
import { createCaller } from "./caller.ts";
import { fetchPackets } from "./fetch-packets.ts";
import type { Halt } from "./halt.ts";
import type { Ports } from "./ports.ts";
import { type Round, sendOps } from "./send-ops.ts";
import { sendPhotos } from "./send-photos.ts";
import { checkFirm } from "./session.ts";

export interface RoundOptions {
  store: Sending;
  ports: Ports;
  at(): string;
  onContact(): void;
  isOpen(jobId: string): boolean;
  /** Who is signed in, as the service has it now. */
  onPerson(person: Profile): void;
}

export async function playRound(options: RoundOptions): Promise<Halt | undefined> {
  try {
    return await play(options);
  } catch (error) {
    // Full, or cleared by the browser meanwhile; what was not written down is asked again.
    if (!STORE_TROUBLE.has(nameOf(error))) throw error;
    return { state: "busy", sentence: phrase("tabletSync.storeTrouble") };
  }
}

const STORE_TROUBLE = new Set(["QuotaExceededError", "AbortError", "UnknownError", "VersionError"]);

async function play({ store, ports, at, onContact, isOpen, onPerson }: RoundOptions) {
  const caller = createCaller(ports, store.firmId, onContact);
  const round: Round = { store, caller, at };
  const barred = await checkFirm(caller, store.firmId, onPerson);
  if (barred) return barred;
  let keptMeanwhile = false;
  const stop = store.onKept(() => {
    keptMeanwhile = true;
  });
  const opsFirst = async (): Promise<Halt | undefined> => {
    if (!keptMeanwhile) return undefined;
    keptMeanwhile = false;
    return endOf(await sendOps(round));
  };
  try {
    const halts = [await sendOps(round)];
    if (!endOf(halts[0])) halts.push(await sendPhotos(round, opsFirst));
    if (halts.every((halt) => !endOf(halt))) {
      const { halt, serverTime } = await fetchPackets(round);
      halts.push(halt);
      if (serverTime) await store.tidy(serverTime, isOpen);
      if (!endOf(halt)) halts.push(await opsFirst());
    }
    return halts.findLast((halt) => endOf(halt)) ?? halts.find((halt) => halt);
  } finally {
    stop();
  }
}

/** What ends the round at once; what this version cannot send does not. */
const endOf = (halt: Halt | undefined): Halt | undefined =>
  halt?.state === "outdated" ? undefined : halt;
