// A paper of many pages takes a second to draw; it is drawn in a thread of its own, and meanwhile
// the service goes on answering.
import { Turns } from "../../web/turns.ts";
import type { Paper } from "./block.ts";
import { DrawThread } from "./draw-thread.ts";

const drawing = new Turns({
  ...{ atOnce: 2, waitingMost: 40 },
  sentence: "Many papers are being made already. Try again in a few seconds.",
});
let idle: DrawThread[] = [];

export function drawInThread(paper: Paper): Promise<Buffer> {
  return drawing.take(async () => {
    idle = idle.filter(({ isGone }) => !isGone);
    const thread = idle.pop() ?? new DrawThread();
    try {
      return await thread.draw(paper);
    } finally {
      idle.push(thread);
    }
  });
}
