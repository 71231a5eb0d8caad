import Fastify, { type FastifyBaseLogger } from "fastify";
import {
  serializerCompiler,
  validatorCompiler,
  type ZodTypeProvider,
} from "fastify-type-provider-zod";
import { uuidv7 } from "uuidv7";
import { SCOPES } from "./access/scopes.ts";
import { ACCESS, ACCESS_BY_PATH } from "./access.ts";
import type { Config } from "./config.ts";
import type { Database } from "./db/client.ts";
import { keySessions } from "./features/api-keys/key-session.ts";
import { setupCodeOf } from "./features/first-run/setup-code.ts";
import { operationKeyOf } from "./features/operation/seal.ts";
import { sessionLiveness } from "./features/session/liveness.ts";
import { renewSession } from "./features/session/renew.ts";
import { FEATURES } from "./features.ts";
import { NAVIGATION } from "./navigation.ts";
import { PAGES } from "./pages.ts";
import { TAGS } from "./tags.ts";
import { guardRoutes } from "./web/access.ts";
import { refuseOverload } from "./web/back-pressure.ts";
import { keepOutOfCaches } from "./web/caches.ts";
import { refuseCrossSite } from "./web/csrf.ts";
import type { App, Context } from "./web/feature.ts";
import { healthRoutes } from "./web/health.ts";
import { acceptJson } from "./web/json-body.ts";
import { describeApi } from "./web/openapi.ts";
import { preparePages, problemPage } from "./web/page.ts";
import { handleProblems } from "./web/problem.ts";
import { traceRequests } from "./web/request-trace.ts";
import { sendSecurityHeaders } from "./web/security-headers.ts";
import { registerSession } from "./web/session.ts";
import { endSlowBodies, UPLOAD_WITHIN_MS } from "./web/slow-bodies.ts";
import { refuseBrokenTexts } from "./web/whole-texts.ts";

export interface AppOptions {
  db: Database;
  config: Config;
  jwtSecret: string;
  logger?: FastifyBaseLogger;
  now?: () => Date;
  queue?: Context["queue"];
}

const BODY_LIMIT_BYTES = 1024 * 1024;

export async function buildApp(options: AppOptions): Promise<App> {
  const { db, config } = options;
  const app = Fastify({
    ...(options.logger ? { loggerInstance: options.logger } : {}),
    bodyLimit: BODY_LIMIT_BYTES,
    trustProxy: config.TRUST_PROXY ? nextHopAlone : false,
    genReqId: () => uuidv7(),
    requestTimeout: UPLOAD_WITHIN_MS,
    return503OnClosing: true,
  }).withTypeProvider<ZodTypeProvider>() as App;
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  const now = options.now ?? (() => new Date());
  const liveness = sessionLiveness(db, now);
  traceRequests(app);
  guardRoutes(app, ACCESS, ACCESS_BY_PATH, SCOPES);
  handleProblems(app, problemPage);
  sendSecurityHeaders(app, config);
  keepOutOfCaches(app);
  refuseOverload(app, db);
  await registerSession(app, {
    secret: options.jwtSecret,
    standing: (session) => liveness.standing(session),
    byKey: keySessions(db, now),
    renew: (refreshToken) => renewSession(db, refreshToken),
  });
  endSlowBodies(app);
  await preparePages(app, NAVIGATION);
  refuseCrossSite(app);
  acceptJson(app);
  refuseBrokenTexts(app);
  await describeApi(app, TAGS, { rules: ACCESS, scopes: SCOPES });
  const derived = derivedFrom(options.jwtSecret);
  const context: Context = { db, config, liveness, now, ...derived, queue: options.queue };
  await healthRoutes(app, context);
  for (const feature of [...FEATURES, ...PAGES]) await feature(app, context);
  return app;
}

const derivedFrom = (secret: string) => ({
  setupCode: setupCodeOf(secret),
  operationKey: operationKeyOf(secret),
});

/** One proxy: of the addresses that a request names, only the last, its addition, is believed. */
const nextHopAlone = (_address: string, hop: number): boolean => hop === 0;
