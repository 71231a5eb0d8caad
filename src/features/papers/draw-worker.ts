import { parentPort, workerData } from "node:worker_threads";
import type { Paper } from "./block.ts";
import { drawPaper } from "./draw-paper.ts";

parentPort?.postMessage(await drawPaper(workerData as Paper));
