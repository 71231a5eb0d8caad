import { parentPort } from "node:worker_threads";
import type { Paper } from "./block.ts";
import { drawPaper } from "./draw-paper.ts";

export interface DrawnPaper {
  pdf?: Uint8Array;
  fault?: string;
}

parentPort?.on("message", async (paper: Paper) => {
  const drawn: DrawnPaper = await drawPaper(paper).then(
    (pdf) => ({ pdf }),
    (error: unknown) => ({ fault: error instanceof Error ? String(error.stack) : String(error) }),
  );
  parentPort?.postMessage(drawn);
});
