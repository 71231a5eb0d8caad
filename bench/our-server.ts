// The real app on the database named by the first argument, as the role the second one names.
import { buildApp } from "../src/app.ts";
import { readConfig } from "../src/config.ts";
import { connect } from "../src/db/client.ts";

const [url, dataFolder, jwtSecret] = process.argv.slice(2) as [string, string, string];
const db = connect({ url, poolSize: 32 });
const config = readConfig({ DATA_DIR: dataFolder, LOG_LEVEL: "silent" }, dataFolder);
const app = await buildApp({ db, config, jwtSecret });
await app.listen({ port: 0, host: "127.0.0.1" });
const address = app.server.address();
process.send?.({ port: typeof address === "object" && address ? address.port : 0 });
for (const end of ["disconnect", "SIGTERM"]) process.on(end, () => process.exit());

// What it holds when all that could go has gone; needs --expose-gc.
process.on("message", (asked) => {
  if (asked !== "megabytes held") return;
  globalThis.gc?.();
  const { heapUsed, external } = process.memoryUsage();
  process.send?.(Math.round((heapUsed + external) / 1024 / 1024));
});
