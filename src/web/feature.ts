import type {
  FastifyBaseLogger,
  FastifyInstance,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import type { AuditStanding } from "./audit-standing.ts";
import type { SessionSubject } from "./session.ts";

export type App = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodTypeProvider
>;

/** What every feature is handed. */
export interface Context {
  db: Database;
  config: Config;
  /** The time now; a test may hand in its own clock. */
  now(): Date;
  liveness: {
    standing(session: SessionSubject): Promise<AuditStanding | undefined>;
    forget(): void;
  };
  /** What founds the first firm over the web. */
  setupCode: string;
  /** Seals the cookie of the operator's page. */
  operationKey: Buffer;
  /** The scheduled work of this process; undefined where another one does it. */
  queue?: { isRunning(): boolean } | undefined;
}

/** A feature adds its routes; the list of them stands in app.ts. */
export type Feature = (app: App, context: Context) => Promise<void>;
