// One kind of `npm run bench:imports` in a process of its own, so that the memory told is its own.
import { createReadStream } from "node:fs";
import { join } from "node:path";
import { constants, monitorEventLoopDelay, PerformanceObserver } from "node:perf_hooks";
import { connect } from "../src/db/client.ts";
import { inFirm } from "../src/db/scope.ts";
import { confirmImport } from "../src/features/imports/decide-import.ts";
import { requireImport } from "../src/features/imports/import-state.ts";
import { receiveFile } from "../src/features/imports/receive-file.ts";
import type { Figures } from "../src/features/imports/schemas.ts";
import { startDryRun } from "../src/features/imports/start-dry-run.ts";
import { addImport } from "../src/features/imports/store.ts";
import type { Desk } from "../src/features/imports/task.ts";
import { workOn } from "../src/features/imports/work.ts";
import type { BenchKind } from "./imports-tables.ts";

export interface KindOrder {
  kind: BenchKind;
  rows: number;
  folder: string;
  appUrl: string;
  firmId: string;
  personId: string;
  copyS: number;
}

const MB = 1024 * 1024;

async function measure(desk: Desk, order: KindOrder): Promise<void> {
  const { kind, rows, folder, personId } = order;
  const watch = new Watch();
  const fields = { kind, fileName: `${kind}.csv`, personId };
  const { id } = await inFirm(desk.db, desk.firmId, (tx) => addImport(tx, fields, desk.now()));
  const began = performance.now();
  await receiveFile(desk, id, createReadStream(join(folder, `${kind}.csv`)));
  await startDryRun(desk, id, { constants: {} }, desk.now());
  await workOn(desk, id);
  const tried = performance.now();
  await inFirm(desk.db, desk.firmId, (tx) => confirmImport(tx, id, "refuse"));
  await workOn(desk, id);
  const ended = performance.now();
  const row = await inFirm(desk.db, desk.firmId, (tx) => requireImport(tx, id));
  const figures = row.figures as Figures;
  if (row.state !== "imported" || figures.bad !== 0 || figures.rows !== rows) {
    throw new Error(`${kind} is ${row.state}: ${JSON.stringify(figures)} ${row.problem ?? ""}`);
  }
  report(order, { trialS: (tried - began) / 1000, importS: (ended - tried) / 1000 }, watch);
}

/**
 * The most memory that the process holds, garbage and all; the most that is in use when V8 has just
 * collected it, which must not grow with the file; and how late other work comes.
 */
class Watch {
  private readonly firstBytes = process.memoryUsage.rss();
  private mostBytes = this.firstBytes;
  private liveBytes = 0;
  private readonly collections = new PerformanceObserver((list) => {
    const isMajor = list.getEntries().some(isMajorCollection);
    if (isMajor) this.liveBytes = Math.max(this.liveBytes, process.memoryUsage().heapUsed);
  });
  private readonly delay = monitorEventLoopDelay({ resolution: 10 });
  private readonly timer = setInterval(() => {
    this.mostBytes = Math.max(this.mostBytes, process.memoryUsage.rss());
  }, 50);

  constructor() {
    this.delay.enable();
    this.collections.observe({ entryTypes: ["gc"] });
  }

  end(): { firstMB: number; mostMB: number; liveMB: number; lateMs: number } {
    clearInterval(this.timer);
    this.collections.disconnect();
    this.delay.disable();
    const [firstMB, mostMB] = [this.firstBytes / MB, this.mostBytes / MB];
    const liveMB = this.liveBytes / MB;
    return { firstMB, mostMB, liveMB, lateMs: this.delay.percentile(99) / 1e6 };
  }
}

const isMajorCollection = (entry: object): boolean =>
  (entry as { detail: { kind: number } }).detail.kind === constants.NODE_PERFORMANCE_GC_MAJOR;

function report(
  { kind, rows, copyS }: KindOrder,
  { trialS, importS }: { trialS: number; importS: number },
  watch: Watch,
): void {
  const { firstMB, mostMB, liveMB, lateMs } = watch.end();
  const perSecond = (seconds: number): string => Math.round(rows / seconds).toString();
  const live = liveMB > 0 ? `${liveMB.toFixed(0)} MB` : "not seen";
  console.log(
    `${kind.padEnd(16)} ${String(rows).padStart(7)} rows  COPY ${perSecond(copyS).padStart(7)} ` +
      `rows/s  dry run ${perSecond(trialS).padStart(6)} (${(copyS / trialS).toFixed(3)} of COPY, ` +
      `${trialS.toFixed(1)} s)  import ${perSecond(importS).padStart(6)} ` +
      `(${(copyS / importS).toFixed(3)}, ${importS.toFixed(1)} s)  RSS ${firstMB.toFixed(0)} MB, ` +
      `at most ${mostMB.toFixed(0)} MB, live heap ${live}` +
      `  event loop late p99 ${lateMs.toFixed(0)} ms`,
  );
}

const order = JSON.parse(process.argv[2] ?? "") as KindOrder;
const db = connect({ url: order.appUrl, poolSize: 8 });
try {
  const desk: Desk = {
    ...{ db, dataFolder: order.folder, firmId: order.firmId, now: () => new Date() },
    onFault: (error) => console.error(error),
  };
  await measure(desk, order);
} finally {
  await db.close();
}
