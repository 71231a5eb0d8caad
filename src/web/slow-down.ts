// Whoever asks or guesses too often is slowed, each process counting for itself.
import { Problem } from "../errors.ts";

const MINUTE_MS = 60_000;
const KEPT_MOST = 10_000;

/**
 * Counts what each asks in a minute, and refuses what is over.
 * @param who as the sentence calls them: "A key", "A network"
 */
export function slowDown(who: string, most: number): (id: string, at: number) => void {
  const asked = countByMinute();
  return (id, at) => {
    const { count, leftS } = asked.add(id, at);
    if (count <= most) return;
    const sentence = `${who} may ask ${most} times a minute. Wait ${leftS} s.`;
    throw new Problem("too-many-requests", sentence, { retryAfterS: leftS });
  };
}

export interface Guesses {
  /** @throws once there were too many wrong ones */
  refuse(id: string, at: number): void;
  noteWrong(id: string, at: number): void;
}

/** Counts wrong guesses alone: who knows the word may ask as often as they like. */
export function slowGuesses(most: number): Guesses {
  const wrong = countByMinute();
  return {
    refuse: (id, at) => {
      const { count, leftS } = wrong.read(id, at);
      if (count < most) return;
      const sentence = `From here ${count} wrong tokens came within a minute. Wait ${leftS} s.`;
      throw new Problem("too-many-sign-ins", sentence, { retryAfterS: leftS });
    },
    noteWrong: (id, at) => void wrong.add(id, at),
  };
}

function countByMinute() {
  const counts = new Map<string, { count: number; since: number }>();
  const current = (id: string, at: number) => {
    const before = counts.get(id);
    return before && at - before.since < MINUTE_MS ? before : { count: 0, since: at };
  };
  const read = (id: string, at: number) => {
    const { count, since } = current(id, at);
    return { count, leftS: Math.ceil((since + MINUTE_MS - at) / 1000) };
  };
  const add = (id: string, at: number) => {
    const { count, since } = current(id, at);
    if (counts.size >= KEPT_MOST) counts.clear();
    counts.set(id, { count: count + 1, since });
    return read(id, at);
  };
  return { read, add };
}
