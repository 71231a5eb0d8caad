// Whoever asks too often is slowed, each process counting for itself.
import { Problem } from "../errors.ts";

const MINUTE_MS = 60_000;
const KEPT_MOST = 10_000;

/**
 * Counts what each asks in a minute, and refuses what is over.
 * @param who as the sentence calls them: "A key", "A network"
 */
export function slowDown(who: string, most: number): (id: string, at: number) => void {
  const asked = new Map<string, { count: number; since: number }>();
  return (id, at) => {
    const before = asked.get(id);
    const current = before && at - before.since < MINUTE_MS ? before : { count: 0, since: at };
    current.count += 1;
    if (asked.size >= KEPT_MOST) asked.clear();
    asked.set(id, current);
    if (current.count <= most) return;
    const retryAfterS = Math.ceil((current.since + MINUTE_MS - at) / 1000);
    const sentence = `${who} may ask ${most} times a minute. Wait ${retryAfterS} s.`;
    throw new Problem("too-many-requests", sentence, { retryAfterS });
  };
}
