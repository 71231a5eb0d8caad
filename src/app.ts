import helmet from "@fastify/helmet";
import Fastify, { type FastifyBaseLogger } from "fastify";
import {
  serializerCompiler,
  validatorCompiler,
  type ZodTypeProvider,
} from "fastify-type-provider-zod";
import { uuidv7 } from "uuidv7";
import { ACCESS, ACCESS_BY_PATH } from "./access.ts";

import type { Config } from "./config.ts";
import type { Database } from "./db/client.ts";
import { setupCodeOf } from "./features/first-run/setup-code.ts";
import { sessionLiveness } from "./features/session/liveness.ts";
import { renewSession } from "./features/session/sign-in.ts";
import { FEATURES, TAGS } from "./features.ts";
import { NAVIGATION } from "./navigation.ts";
import { guardRoutes } from "./web/access.ts";
import { refuseCrossSite } from "./web/csrf.ts";
import type { App } from "./web/feature.ts";
import { acceptForms } from "./web/forms.ts";
import { healthRoutes } from "./web/health.ts";
import { acceptJson } from "./web/json-body.ts";
import { readLanguage } from "./web/language.ts";
import { describeApi } from "./web/openapi.ts";
import { preparePages, problemPage, serveAssets } from "./web/page.ts";
import { handleProblems } from "./web/problem.ts";
import { registerSession } from "./web/session.ts";
import { endSlowBodies, UPLOAD_WITHIN_MS } from "./web/slow-bodies.ts";

export interface AppOptions {
  db: Database;
  config: Config;
  jwtSecret: string;
  logger?: FastifyBaseLogger;
  now?: () => Date;
}

const BODY_LIMIT_BYTES = 1024 * 1024;

export async function buildApp(options: AppOptions): Promise<App> {
  const { db, config } = options;
  const app = Fastify({
    ...(options.logger ? { loggerInstance: options.logger } : {}),
    bodyLimit: BODY_LIMIT_BYTES,
    trustProxy: config.TRUST_PROXY,
    genReqId: () => uuidv7(),
    requestTimeout: UPLOAD_WITHIN_MS,
    return503OnClosing: true,
  }).withTypeProvider<ZodTypeProvider>() as App;
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);

  const liveness = sessionLiveness(db);
  guardRoutes(app, ACCESS, ACCESS_BY_PATH);
  handleProblems(app, problemPage);
  await app.register(helmet, {
    contentSecurityPolicy: { directives: { "upgrade-insecure-requests": null } },
    strictTransportSecurity: config.PUBLIC_URL?.startsWith("https:") ?? false,
  });
  await registerSession(app, {
    secret: options.jwtSecret,
    isLive: (session) => liveness.isLive(session),
    renew: (refreshToken) => renewSession(db, refreshToken),
  });
  endSlowBodies(app);
  readLanguage(app);
  preparePages(app, NAVIGATION);
  refuseCrossSite(app);
  acceptJson(app);
  await acceptForms(app);
  await serveAssets(app);
  await describeApi(app, TAGS);

  const setupCode = setupCodeOf(options.jwtSecret);
  const now = options.now ?? (() => new Date());
  const context = { db, config, liveness, now, setupCode };
  await healthRoutes(app, context);
  for (const feature of FEATURES) await feature(app, context);
  return app;
}
