// A thread that draws one paper after the other: to start one and load what it draws with takes as
// long as several papers. It keeps no process alive, and goes when there was nothing to draw for a
// while.
import { Worker } from "node:worker_threads";
import type { Paper } from "./block.ts";
import type { DrawnPaper } from "./draw-worker.ts";

const WORKER = new URL("./draw-worker.ts", import.meta.url);
const GIVE_UP_MS = 60_000;
const IDLE_MS_MOST = 30_000;

export class DrawThread {
  readonly #worker = new Worker(WORKER);
  #settle: ((drawn: DrawnPaper) => void) | undefined;
  #timer: NodeJS.Timeout | undefined;
  #gone = false;

  constructor() {
    this.#worker.on("message", (drawn: DrawnPaper) => this.#settle?.(drawn));
    this.#worker.on("error", (error) => this.#end(String(error.stack ?? error)));
    this.#worker.on("exit", () => this.#end("the drawing thread ended"));
    this.#worker.unref();
  }

  get isGone(): boolean {
    return this.#gone;
  }

  /** One paper at a time. */
  async draw(paper: Paper): Promise<Buffer> {
    clearTimeout(this.#timer);
    this.#worker.ref();
    const drawn = await new Promise<DrawnPaper>((resolve) => {
      this.#settle = resolve;
      this.#timer = setTimeout(() => this.#end("a paper was not drawn in time"), GIVE_UP_MS);
      this.#worker.postMessage(paper);
    });
    clearTimeout(this.#timer);
    this.#settle = undefined;
    this.#worker.unref();
    this.#timer = setTimeout(() => this.#end("nothing to draw"), IDLE_MS_MOST).unref();
    if (!drawn.pdf) throw new Error(drawn.fault);
    return Buffer.from(drawn.pdf.buffer, drawn.pdf.byteOffset, drawn.pdf.byteLength);
  }

  #end(fault: string): void {
    this.#gone = true;
    clearTimeout(this.#timer);
    this.#settle?.({ fault });
    void this.#worker.terminate();
  }
}
