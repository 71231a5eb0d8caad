// A paper of many pages takes a second to draw; it is drawn in a thread of its own, and meanwhile
// the service goes on answering.
import { Problem } from "../../errors.ts";
import type { Paper } from "./block.ts";
import { DrawThread } from "./draw-thread.ts";

const THREADS_MOST = 2;
const WAITING_MOST = 40;

let idle: DrawThread[] = [];
let running = 0;
const waiting: (() => void)[] = [];

export async function drawInThread(paper: Paper): Promise<Buffer> {
  if (running >= THREADS_MOST) {
    if (waiting.length >= WAITING_MOST) {
      const sentence = "Many papers are being made already. Try again in a few seconds.";
      throw new Problem("busy", sentence, { retryAfterS: 10 });
    }
    await new Promise<void>((resolve) => waiting.push(resolve));
  } else running += 1;
  idle = idle.filter(({ isGone }) => !isGone);
  const thread = idle.pop() ?? new DrawThread();
  try {
    return await thread.draw(paper);
  } finally {
    idle.push(thread);
    const next = waiting.shift();
    if (next) next();
    else running -= 1;
  }
}
