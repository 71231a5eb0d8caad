// Requirement: what kept an item from being done in its place in the sequence is told in one
// sentence, with what was known, what was needed and the way out.
import type { CompiledItem } from "../plan/compile.ts";
import type { BreakerSet } from "../plan/sequence.ts";
import type { Subject } from "../plan/subjects.ts";
import type { BreakerMove } from "./breaker-states.ts";
import { clockTime, duration } from "./clock-time.ts";
import type { Unmet } from "./standing.ts";
import type { OpenFinding } from "./verdict.ts";

export type Obstacle =
  | ({ kind: "unmet"; isDead: boolean } & Unmet)
  | {
      kind: "breaker";
      wanted: BreakerSet;
      known: BreakerMove | undefined;
      /** The items of the plan that leave the breaker as it is wanted. */
      ways: readonly CompiledItem[];
    }
  | {
      kind: "too-soon" | "too-late";
      /** The item from whose meeting the time counts, and the subject whose it was. */
      needed: CompiledItem;
      subject: Subject;
      elapsedMs: number;
      limitMs: number;
      /** From when on, or until when, it can be done: milliseconds since 1970 in UTC. */
      limitAtMs: number;
    };

/**
 * What is said of an answer that came upon an obstacle.
 * @param timeZone of the site, in whose time moments are told
 */
export function obstacleFinding(obstacle: Obstacle, timeZone: string): OpenFinding {
  switch (obstacle.kind) {
    case "unmet":
      return unmetFinding(obstacle);
    case "breaker":
      return breakerFinding(obstacle);
    case "too-soon":
    case "too-late":
      return dwellFinding(obstacle, timeZone);
  }
}

const outOfSequence = (code: string, sentence: string, toClear: string): OpenFinding => ({
  outcome: "out-of-sequence",
  clears: false,
  code,
  sentence,
  toClear,
});

function unmetFinding(unmet: Extract<Obstacle, { kind: "unmet" }>): OpenFinding {
  const { needed, subject, failure, isDead } = unmet;
  const title = `"${needed.item.title}"`;
  const named = titleOf(needed, subject);
  const code = "out-of-sequence";
  if (failure) {
    const sentence = `Taken before ${named} was repeated, since "${failure.item.title}" failed.`;
    return outOfSequence(code, sentence, `Repeat ${title} first, then do this again.`);
  }
  const sentence = isDead
    ? `Taken with the supply on before ${named}, which is done with it off, was met.`
    : `Taken before ${named} was met.`;
  return outOfSequence(code, sentence, `Meet ${title} first, then do this again.`);
}

function breakerFinding({
  wanted,
  known,
  ways,
}: Extract<Obstacle, { kind: "breaker" }>): OpenFinding {
  const { breaker, state } = wanted;
  const stood = known
    ? `Breaker "${breaker}" was ${known.state} since "${known.by}"`
    : `How breaker "${breaker}" stood is not known`;
  const [way] = ways;
  const toClear = way ? `Do "${way.item.title}"` : `Bring breaker "${breaker}" there`;
  return outOfSequence(
    "breaker-state",
    `${stood}; needed ${state}.`,
    `${toClear}, so that it is ${state}, then do this again.`,
  );
}

type Dwell = Extract<Obstacle, { kind: "too-soon" | "too-late" }>;

function dwellFinding(dwell: Dwell, timeZone: string): OpenFinding {
  const { kind, needed, subject, elapsedMs, limitMs, limitAtMs } = dwell;
  const title = `"${needed.item.title}"`;
  const taken = `Taken ${duration(elapsedMs)} after ${titleOf(needed, subject)} was met`;
  const limit = duration(limitMs);
  if (kind === "too-soon") {
    const from = clockTime(Math.ceil(limitAtMs / 1000) * 1000, timeZone);
    const sentence = `${taken}; needed at least ${limit}, so from ${from} on.`;
    return outOfSequence(kind, sentence, `Do this again once ${limit} have passed.`);
  }
  const sentence = `${taken}; needed at most ${limit}, so until ${clockTime(limitAtMs, timeZone)}.`;
  return outOfSequence(kind, sentence, `Do ${title} again, then this within ${limit}.`);
}

const titleOf = ({ item }: CompiledItem, { label }: Subject): string =>
  `"${item.title}"${label ? ` (${label})` : ""}`;
