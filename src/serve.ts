import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import type { Logger } from "pino";
import { buildApp } from "./app.ts";
import { type Config, readConfig } from "./config.ts";
import { defaultDataFolder } from "./data-folder.ts";
import { requireDurable } from "./db/durability.ts";
import { type DatabaseWatch, type OpenDatabase, openDatabase } from "./db/open.ts";
import { offerDemo } from "./demo/offer-demo.ts";
import { isThereAFirm } from "./features/firms/store.ts";
import { setupCodeOf } from "./features/first-run/setup-code.ts";
import type { RunningQueue } from "./runs/queue.ts";
import { startRuns } from "./runs/start.ts";
import { readSecrets } from "./secrets.ts";
import type { App } from "./web/feature.ts";
import { openLog } from "./web/log.ts";
import { currentRequest } from "./web/request-trace.ts";

const PROJECT_FOLDER = dirname(dirname(fileURLToPath(import.meta.url)));

async function main(): Promise<void> {
  const config = readConfig(process.env, defaultDataFolder(PROJECT_FOLDER));
  const secrets = readSecrets(config.dataFolder);
  const logger = openLog(config.LOG_LEVEL);
  const database = await openDatabase(config, secrets, watching(logger));
  try {
    await requireDurable(database.db);
    const demo = await offerDemo(database, config, new Date(), console.log);
    const jwtSecret = config.JWT_SECRET ?? secrets.jwtSecret;
    let runs: RunningQueue | undefined;
    const queue = config.RUNS ? { isRunning: () => runs?.isRunning() ?? false } : undefined;
    const app = await buildApp({ db: database.db, config, jwtSecret, logger, queue });
    await app.listen({ port: config.PORT, host: config.HOST });
    if (config.RUNS) runs = await startRuns(database, config, logger);
    const isNew = !(await isThereAFirm(database.db));
    // From here on nothing waits for the database: a signal may close it at any moment.
    stopOnSignal(app, database, runs);
    greet(app, config, database);
    for (const line of demo) console.log(line);
    if (isNew) {
      console.log(
        `No firm is set up yet: open /start with the setup code ${setupCodeOf(jwtSecret)}`,
      );
    }
  } catch (error) {
    await database.close();
    throw portSentence(error, config);
  }
}

function watching(logger: Logger): DatabaseWatch {
  return {
    slowQuery: (query) => logger.warn({ ...query, reqId: currentRequest() }, "slow query"),
    replica: (isFit) =>
      isFit
        ? logger.info("the replica keeps up: lists and exports are read there")
        : logger.warn("the replica does not answer or is over ten seconds behind: not read"),
    cluster: {
      revived: () => logger.error("the embedded database ended by itself and was started again"),
      lost: (reason) => {
        console.error(`${reason}\nStart Holdpoint again when that is mended.`);
        process.exit(1);
      },
    },
  };
}

function greet(app: App, config: Config, database: OpenDatabase): void {
  const address = app.server.address();
  const port = typeof address === "object" && address ? address.port : config.PORT;
  const host = config.HOST === "0.0.0.0" || config.HOST === "127.0.0.1" ? "localhost" : config.HOST;
  console.log(`Holdpoint listens on ${config.PUBLIC_URL ?? `http://${host}:${port}`}`);
  console.log(
    database.embedded
      ? `Everything is kept in ${config.dataFolder}`
      : "Data is kept in DATABASE_URL",
  );
}

function stopOnSignal(app: App, database: OpenDatabase, runs: RunningQueue | undefined): void {
  let stopping = false;
  const stop = async (signal: string): Promise<void> => {
    if (stopping) process.exit(1);
    stopping = true;
    console.log(`${signal}: finishing what is under way, then stopping`);
    await app.drain();
    await app.close();
    await runs?.stop();
    await database.close();
    process.exit(0);
  };
  for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => void stop(signal));
}

function portSentence(error: unknown, config: Config): unknown {
  const code = (error as { code?: unknown }).code;
  if (code === "EADDRINUSE") {
    return new Error(
      `Port ${config.PORT} is taken by another program. Stop that one, or choose another port: PORT=3100 npm start`,
    );
  }
  if (code === "EACCES") {
    return new Error(
      `This account may not listen on port ${config.PORT}. Choose one above 1023: PORT=3100 npm start`,
    );
  }
  return error;
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  if (process.env.LOG_LEVEL === "debug" && error instanceof Error) console.error(error.stack);
  process.exit(1);
});
