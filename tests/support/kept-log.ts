// The service as startService starts it, with its log kept line by line.
import supertest from "supertest";
import { buildApp } from "../../src/app.ts";
import { readConfig } from "../../src/config.ts";
import { connect } from "../../src/db/client.ts";
import type { App } from "../../src/web/feature.ts";
import { openLog } from "../../src/web/log.ts";
import type { TestService } from "./app.ts";

export interface LoggedService {
  app: App;
  agent: ReturnType<typeof supertest>;
  lines: string[];
  entries(): Record<string, unknown>[];
  stop(): Promise<void>;
}

export async function startLogged(
  service: TestService,
  environment: Record<string, string> = {},
): Promise<LoggedService> {
  const lines: string[] = [];
  const logger = openLog("info", { write: (line: string) => void lines.push(line) });
  return keep(environment, lines, { logger, db: service.db });
}

/** With all that could ever be logged: the finest level, and every query as if it were slow. */
export async function startLoggingAll(
  service: TestService,
  environment: Record<string, string> = {},
): Promise<LoggedService> {
  const lines: string[] = [];
  const logger = openLog("trace", { write: (line: string) => void lines.push(line) });
  const tell = (query: object): void => logger.warn(query, "slow query");
  const db = connect({ url: service.appUrl, poolSize: 4, slowQueries: { leastMs: 0, tell } });
  const logged = await keep(environment, lines, { logger, db });
  const stop = async (): Promise<void> => {
    await logged.stop();
    await db.close();
  };
  return { ...logged, stop };
}

async function keep(
  environment: Record<string, string>,
  lines: string[],
  parts: Pick<Parameters<typeof buildApp>[0], "db" | "logger">,
): Promise<LoggedService> {
  const app = await buildApp({
    ...{ config: readConfig({ ...environment }, ".data/tests"), ...parts },
    jwtSecret: "a secret of forty characters for the tests",
  });
  await app.ready();
  const entries = () => lines.map((line) => JSON.parse(line) as Record<string, unknown>);
  return { app, agent: supertest(app.server), lines, entries, stop: () => app.close() };
}
