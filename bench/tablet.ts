// `npm run bench:tablet`: how large the tablet's page is, how soon it can be worked with when there
// is no signal, and how long a tap takes until what it says is kept. In a real browser whose
// processor is slowed four times; nothing here is a test.

import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { buildApp } from "../src/app.ts";
import { readConfig } from "../src/config.ts";
import { connect } from "../src/db/client.ts";
import { startCluster } from "../src/db/embedded/cluster.ts";
import { migrate } from "../src/db/migrate.ts";
import { prepareEmbedded } from "../src/db/roles.ts";
import { tabletBundle } from "../src/features/tablet/bundle.ts";
import { launchBrowser } from "../tests/support/browser.ts";
import { row } from "./row.ts";
import { ITEMS, tabletBenchData, UNITS } from "./tablet-data.ts";
import { measurePage, type PageFigures } from "./tablet-page.ts";

const LIMIT_KB = 150;

const folder = mkdtempSync(join(tmpdir(), "holdpoint-bench-tablet-"));
chmodSync(folder, 0o711);
const cluster = await startCluster({ folder, superuserPassword: "bench", settings: [] });
try {
  await printSizes();
  printFigures(await pageFigures());
} finally {
  await cluster.stop();
  rmSync(folder, { recursive: true, force: true });
}

async function printSizes(): Promise<void> {
  const { chunks } = await tabletBundle();
  const kb = (bytes: number): string => `${(bytes / 1024).toFixed(1)} KB`;
  for (const { path, bytes, packedBytes, loaded } of chunks) {
    console.log(`${path} | ${kb(bytes.length)} | packed ${kb(packedBytes)} | ${loaded}`);
  }
  const first = chunks.filter(({ loaded }) => loaded !== "on-demand");
  const packed = first.reduce((sum, { packedBytes }) => sum + packedBytes, 0);
  row("tablet: client at first load, packed", kb(packed), "–", "–", `≤ ${LIMIT_KB} KB`);
  const isSpanish = ({ path }: { path: string }): boolean => /tablet-spanish|retell/.test(path);
  const spanish = chunks.filter(isSpanish).reduce((sum, { packedBytes }) => sum + packedBytes, 0);
  console.log(`who reads Spanish loads besides | packed ${kb(spanish)}`);
}

async function pageFigures(): Promise<PageFigures> {
  const names = { owner: "bench", app: "bench" };
  const urls = await prepareEmbedded(cluster.superuserUrl, "bench", names);
  await migrate(urls.ownerUrl);
  const db = connect({ url: urls.appUrl, poolSize: 8 });
  const config = readConfig({ DATA_DIR: folder, LOG_LEVEL: "silent" }, folder);
  const app = await buildApp({ db, config, jwtSecret: "a secret for the bench and nothing else" });
  const browser = await launchBrowser();
  try {
    const data = await tabletBenchData(db, new Date());
    const address = await app.listen({ port: 0, host: "127.0.0.1" });
    return await measurePage(browser, address.replace("127.0.0.1", "localhost"), data);
  } finally {
    await browser.close();
    await app.close();
    await db.close();
  }
}

function printFigures({ dayMs, visitMs, keptMs, bareMs, slowdown }: PageFigures): void {
  const ms = (value: number): string => `${value.toFixed(0)} ms`;
  const all = (values: number[]): string => values.map(ms).join(", ");
  const at = (values: number[], share: number): string => {
    const sorted = values.toSorted((a, b) => a - b);
    return ms(sorted[Math.floor((sorted.length - 1) * share)] ?? 0);
  };
  const both = (values: number[]): string => `p50 ${at(values, 0.5)}, p99 ${at(values, 0.99)}`;
  console.log(`processor slowed ${slowdown} times, ${ITEMS} items for each of ${UNITS} units`);
  row("tablet: the day opens without signal", all(dayMs), "–", "–", "≤ 1500 ms");
  row("tablet: the visit opens without signal", all(visitMs), "–", "–", "≤ 1500 ms");
  const bare = `one bare strict write ${both(bareMs)}`;
  row(`tablet: tap to kept, ${keptMs.length} taps`, both(keptMs), bare, "–", "p99 ≤ 50 ms");
}
