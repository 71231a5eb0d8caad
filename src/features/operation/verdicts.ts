// What is well and what is amiss of the service's figures, and what whoever runs it does about it.
import type { QueueFigures } from "./store.ts";

export interface Verdict {
  mark: "good" | "watch" | "bad";
  /** What to do; none where it is good. */
  advice: string | null;
}

const GOOD: Verdict = { mark: "good", advice: null };
const DAY_MS = 24 * 3600 * 1000;
const LATE_S = 15 * 60;
const FREE_WATCH = 0.2;
const FREE_BAD = 0.05;

const say = (mark: Verdict["mark"], advice: string): Verdict => ({ mark, advice });

export function queueVerdict({ failed, oldestS }: QueueFigures): Verdict {
  if (oldestS > LATE_S) return say("bad", "Look whether a process with RUNS=true is running.");
  return failed > 0 ? say("watch", "Look in the log why this work failed.") : GOOD;
}

export function mailVerdict(mail: { waiting: number; failed: number }, isPosted: boolean): Verdict {
  if (!isPosted) return say("watch", "Set SMTP_URL: without it no mail leaves.");
  return mail.failed > 0 ? say("watch", "Look in the log why mails were given up.") : GOOD;
}

export const poolVerdict = (waiting: number): Verdict =>
  waiting > 0 ? say("watch", "Raise DATABASE_POOL_SIZE if this lasts.") : GOOD;

export interface Disk {
  bytes: number | null;
  freeBytes: number | null;
}

export function diskVerdict({ bytes, freeBytes }: Disk): Verdict {
  if (bytes === null || freeBytes === null) return say("bad", "DATA_DIR cannot be read; mend it.");
  const advice = "Free space on the disk of DATA_DIR, or move the folder to a larger one.";
  if (freeBytes < bytes * FREE_BAD) return say("bad", advice);
  return freeBytes < bytes * FREE_WATCH ? say("watch", advice) : GOOD;
}

export function backupVerdict(at: string | undefined, now: Date): Verdict {
  if (at === undefined) return say("bad", "Make a backup; none is noted yet.");
  const age = now.getTime() - Date.parse(at);
  if (age > 7 * DAY_MS) return say("bad", "Make a backup; the last is over a week old.");
  return age > 2 * DAY_MS ? say("watch", "Make a backup; the last is over two days old.") : GOOD;
}
