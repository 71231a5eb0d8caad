// A paper of many pages takes a second to draw; it is drawn in a thread of its own, and meanwhile
// the service goes on answering.
import { Worker } from "node:worker_threads";
import { Problem } from "../../errors.ts";
import type { Paper } from "./block.ts";

const THREAD = new URL("./draw-worker.ts", import.meta.url);
const THREADS_MOST = 2;
const WAITING_MOST = 40;
const GIVE_UP_MS = 60_000;

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
  try {
    return await drawn(paper);
  } finally {
    const next = waiting.shift();
    if (next) next();
    else running -= 1;
  }
}

async function drawn(paper: Paper): Promise<Buffer> {
  const worker = new Worker(THREAD, { workerData: paper });
  return new Promise<Buffer>((resolve, reject) => {
    const timer = setTimeout(() => {
      void worker.terminate();
      reject(new Error("a paper was not drawn in time"));
    }, GIVE_UP_MS);
    const settle = (then: () => void) => {
      clearTimeout(timer);
      then();
    };
    worker.once("message", (bytes: Uint8Array) => settle(() => resolve(Buffer.from(bytes))));
    worker.once("error", (error) => settle(() => reject(error)));
  });
}
