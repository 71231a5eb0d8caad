// The service as startService starts it, with its log kept line by line.
import { pino } from "pino";
import supertest from "supertest";
import { buildApp } from "../../src/app.ts";
import { readConfig } from "../../src/config.ts";
import type { App } from "../../src/web/feature.ts";
import type { TestService } from "./app.ts";

export interface LoggedService {
  app: App;
  agent: ReturnType<typeof supertest>;
  lines: string[];
  entries(): Record<string, unknown>[];
}

export async function startLogged(
  service: TestService,
  environment: Record<string, string> = {},
): Promise<LoggedService> {
  const lines: string[] = [];
  const logger = pino({ level: "info" }, { write: (line: string) => lines.push(line) });
  const app = await buildApp({
    ...{ db: service.db, config: readConfig({ ...environment }, ".data/tests"), logger },
    jwtSecret: "a secret of forty characters for the tests",
  });
  await app.ready();
  const entries = () => lines.map((line) => JSON.parse(line) as Record<string, unknown>);
  return { app, agent: supertest(app.server), lines, entries };
}
