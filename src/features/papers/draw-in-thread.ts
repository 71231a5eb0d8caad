// A paper of many pages takes a second to draw; it is drawn in a thread of its own, and meanwhile
// the service goes on answering.
import { createHash } from "node:crypto";
import { serialize } from "node:v8";
import { Worker } from "node:worker_threads";
import { Problem } from "../../errors.ts";
import type { Paper } from "./block.ts";

const THREAD = new URL("./draw-worker.ts", import.meta.url);
const THREADS_MOST = 2;
const WAITING_MOST = 40;
const GIVE_UP_MS = 60_000;

/** The same paper is asked for again soon: by a customer, by each export of the same record. */
const KEPT_BYTES_MOST = 32_000_000;

const kept = new Map<string, Buffer>();
let running = 0;
const waiting: (() => void)[] = [];

export async function drawInThread(paper: Paper): Promise<Buffer> {
  const key = createHash("sha256").update(serialize(paper)).digest("hex");
  const pdf = kept.get(key) ?? (await drawInTurn(paper));
  kept.delete(key);
  kept.set(key, pdf);
  let bytes = [...kept.values()].reduce((sum, { length }) => sum + length, 0);
  for (const [oldest, { length }] of kept) {
    if (bytes <= KEPT_BYTES_MOST) break;
    kept.delete(oldest);
    bytes -= length;
  }
  return pdf;
}

async function drawInTurn(paper: Paper): Promise<Buffer> {
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
