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
import { answerRoutes } from "./features/answers/routes.ts";
import { bankRoutes } from "./features/banks/routes.ts";
import { calculationRoutes } from "./features/calculations/routes.ts";
import { jobPages } from "./features/close-out/pages.ts";
import { closeOutRoutes } from "./features/close-out/routes.ts";
import { concessionRoutes } from "./features/concessions/routes.ts";
import { crewRoutes } from "./features/crews/routes.ts";
import { customerRoutes } from "./features/customers/routes.ts";
import { firmwareDueRoutes } from "./features/firmware/due-routes.ts";
import { firmwarePages } from "./features/firmware/pages.ts";
import { firmwareReadingRoutes } from "./features/firmware/reading-routes.ts";
import { firmwareRoutes } from "./features/firmware/routes.ts";
import { firmwareTargetRoutes } from "./features/firmware/target-routes.ts";
import { instrumentRoutes } from "./features/instruments/routes.ts";
import { jobRoutes } from "./features/jobs/routes.ts";
import { jobUnitRoutes } from "./features/jobs/unit-routes.ts";
import { ledgerRoutes } from "./features/ledger/routes.ts";
import { mailRoutes } from "./features/mail/routes.ts";
import { noticeRoutes } from "./features/notices/routes.ts";
import { peopleRoutes } from "./features/people/routes.ts";
import { photoRoutes } from "./features/photos/routes.ts";
import { planRoutes } from "./features/plans/routes.ts";
import { planVersionRoutes } from "./features/plans/version-routes.ts";
import { productModelRoutes } from "./features/product-models/routes.ts";
import { sessionLiveness } from "./features/session/liveness.ts";
import { sessionPages } from "./features/session/pages.ts";
import { sessionRoutes } from "./features/session/routes.ts";
import { renewSession } from "./features/session/sign-in.ts";
import { siteRoutes } from "./features/sites/routes.ts";
import { snagRoutes } from "./features/snags/routes.ts";
import { todayPages } from "./features/today/pages.ts";
import { unitRoutes } from "./features/units/routes.ts";
import { visitRoutes } from "./features/visits/routes.ts";
import { guardRoutes } from "./web/access.ts";
import { refuseCrossSite } from "./web/csrf.ts";
import type { App, Feature } from "./web/feature.ts";
import { acceptForms } from "./web/forms.ts";
import { healthRoutes } from "./web/health.ts";
import { acceptJson } from "./web/json-body.ts";
import { describeApi } from "./web/openapi.ts";
import { problemPage, serveAssets } from "./web/page.ts";
import { handleProblems } from "./web/problem.ts";
import { registerSession } from "./web/session.ts";

export interface AppOptions {
  db: Database;
  config: Config;
  jwtSecret: string;
  logger?: FastifyBaseLogger;
  now?: () => Date;
}

/** The whole system at a glance: what a newcomer reads first. */
const FEATURES: readonly Feature[] = [
  sessionRoutes,
  sessionPages,
  customerRoutes,
  photoRoutes,
  answerRoutes,
  concessionRoutes,
  closeOutRoutes,
  ledgerRoutes,
  firmwareRoutes,
  firmwareTargetRoutes,
  firmwareReadingRoutes,
  noticeRoutes,
  mailRoutes,
  firmwareDueRoutes,
  firmwarePages,
  calculationRoutes,
  todayPages,
  jobPages,
  peopleRoutes,
  crewRoutes,
  siteRoutes,
  productModelRoutes,
  unitRoutes,
  bankRoutes,
  instrumentRoutes,
  planRoutes,
  planVersionRoutes,
  jobRoutes,
  jobUnitRoutes,
  visitRoutes,
  snagRoutes,
];

const TAGS = [
  { name: "Session", description: "Signing in and out" },
  { name: "Customers", description: "Who the work is for" },
  { name: "Photos", description: "Pictures tied to a job's items" },
  { name: "Answers", description: "What was read, and the verdict on it" },
  { name: "Concessions", description: "Releasing what does not conform" },
  { name: "Close-out", description: "The gate, closing and reopening" },
  { name: "Ledger", description: "The append-only record of a job" },
  { name: "People", description: "Who signs in, and with which roles" },
  { name: "Crews", description: "Installers who are sent out together" },
  { name: "Sites", description: "Where the work is" },
  { name: "Product models", description: "What kinds of unit there are" },
  { name: "Units", description: "Serial-numbered things and their lives" },
  { name: "Banks", description: "Packs that act as one battery" },
  { name: "Instruments", description: "What readings are taken with, and their calibrations" },
  { name: "Plans", description: "Inspection and test plans and their versions" },
  { name: "Jobs", description: "The work at a site: its plan, its units, its end" },
  { name: "Visits", description: "Who goes when, with which instruments" },
  { name: "Snags", description: "Small things to be put right" },
  { name: "Firmware", description: "Releases, targets, levels and what is due" },
  { name: "Notices", description: "What was recorded each morning, and who was told" },
  { name: "Mail", description: "The outbox" },
  { name: "Calculations", description: "Electrical and mechanical figures with their working" },
  { name: "Service", description: "Whether the service itself is well" },
];

const BODY_LIMIT_BYTES = 1024 * 1024;

export async function buildApp(options: AppOptions): Promise<App> {
  const { db, config } = options;
  const app = Fastify({
    ...(options.logger ? { loggerInstance: options.logger } : {}),
    bodyLimit: BODY_LIMIT_BYTES,
    trustProxy: config.TRUST_PROXY,
    genReqId: () => uuidv7(),
    requestTimeout: 120_000,
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
  refuseCrossSite(app);
  acceptJson(app);
  await acceptForms(app);
  await serveAssets(app);
  await describeApi(app, TAGS);

  const context = { db, config, liveness, now: options.now ?? (() => new Date()) };
  await healthRoutes(app, context);
  for (const feature of FEATURES) await feature(app, context);
  return app;
}
