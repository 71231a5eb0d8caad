import type { FastifyBaseLogger } from "fastify";
import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import type { OpenDatabase } from "../db/open.ts";
import { openPost, type Post } from "../features/mail/post.ts";
import { drawPapers } from "./draw-papers.ts";
import type { OnFailure } from "./each-firm.ts";
import { purgeEvidenceExports, resumeEvidenceExports } from "./evidence-exports.ts";
import { sendFirmwareNotices } from "./firmware-notice.ts";
import { decideAllRings } from "./firmware-rings.ts";
import { purgeImports, resumeImports } from "./imports.ts";
import { checkpointRun } from "./ledger-checkpoint.ts";
import { purge } from "./purge.ts";
import { purgePhotoUploads } from "./purge-photo-uploads.ts";
import { type Run, type RunningQueue, startQueue } from "./queue.ts";
import { openRecurringInspections } from "./recurring-inspections.ts";
import { sendWaitingMail } from "./send-mail.ts";
import { sendWebhooks } from "./send-webhooks.ts";
import { stampRun } from "./time-stamps.ts";
import { writeVisitMails } from "./visit-mails.ts";
import { warrantyRun } from "./warranty-run.ts";

/** The scheduled work of this instance; any number of instances share it out among themselves. */
export async function startRuns(
  database: Pick<OpenDatabase, "db" | "ownerUrl" | "url" | "role">,
  config: Config,
  logger: FastifyBaseLogger,
): Promise<RunningQueue> {
  const post = openPost(config);
  const queue = await startQueue(
    {
      ownerUrl: database.ownerUrl,
      url: database.url,
      onError: (error) => logger.error({ err: error }, "queue"),
      onWarning: ({ message }) => logger.warn(message),
      ...(database.role ? { role: database.role } : {}),
    },
    runsOf(database.db, config, post, logger),
  );
  return {
    isRunning: queue.isRunning,
    stop: async () => {
      await queue.stop();
      post.close();
    },
  };
}

const now = (): Date => new Date();

function runsOf(db: Database, config: Config, post: Post, logger: FastifyBaseLogger): Run[] {
  const onFailureOf =
    (run: string): OnFailure =>
    (firm, error) =>
      logger.error({ err: error, firm: firm.id, run }, "a run failed for one firm");
  return [
    {
      name: "firmware-notice",
      cron: "*/5 * * * *",
      work: async () => {
        const onFailure = onFailureOf("firmware-notice");
        const options = { now: now(), waitForHour: true, onFailure };
        for (const outcome of await sendFirmwareNotices(db, config, options)) {
          const { firm, day, sites, notices } = outcome;
          logger.info({ firm, day, sites, notices: notices.length }, "firmware notice");
        }
      },
    },
    visitMailRun(db, config, logger, onFailureOf("visit-mails")),
    sendRun(db, post, logger, onFailureOf("send-mail")),
    checkpointRun(db, logger, onFailureOf("ledger-checkpoint")),
    {
      name: "send-webhooks",
      cron: "* * * * *",
      work: async () => {
        const figures = await sendWebhooks(db, config, now, onFailureOf("send-webhooks"));
        if (Object.values(figures).some((count) => count > 0)) logger.info(figures, "webhooks");
      },
    },
    importRun(db, config, logger, onFailureOf("imports")),
    paperRun(db, config, logger, onFailureOf("draw-papers")),
    exportRun(db, config, logger, onFailureOf("evidence-exports")),
    stampRun(db, config, logger, onFailureOf("time-stamps")),
    ringRun(db, logger, onFailureOf("firmware-rings")),
    recurringRun(db, logger, onFailureOf("recurring-inspections")),
    warrantyRun(db, config, logger, onFailureOf("warranty-reminders")),
    purgeRun(db, config, logger, onFailureOf("purge")),
  ];
}

const visitMailRun = (
  db: Database,
  config: Config,
  logger: FastifyBaseLogger,
  onFailure: OnFailure,
): Run => ({
  name: "visit-mails",
  cron: "* * * * *",
  work: async () => {
    const figures = await writeVisitMails(db, config, now(), onFailure);
    if (figures.written + figures.reminded > 0) logger.info(figures, "visit mails");
  },
});

const sendRun = (
  db: Database,
  post: Post,
  logger: FastifyBaseLogger,
  onFailure: OnFailure,
): Run => ({
  name: "send-mail",
  cron: "* * * * *",
  work: async () => {
    const figures = await sendWaitingMail(db, post, now, onFailure);
    if (Object.values(figures).some((count) => count > 0)) logger.info(figures, "mail");
  },
});

const purgeRun = (
  db: Database,
  config: Config,
  logger: FastifyBaseLogger,
  onFailure: OnFailure,
): Run => ({
  name: "purge",
  cron: "17 3 * * *",
  work: async () => {
    const removed = await purge(db, config, now(), onFailure);
    const uploads = await purgePhotoUploads(db, config.dataFolder, now(), onFailure);
    const imports = await purgeImports(db, config, now(), onFailure);
    const exports = await purgeEvidenceExports(db, config, now(), onFailure);
    logger.info({ removed, uploads, imports, exports }, "purged");
  },
});

const ringRun = (db: Database, logger: FastifyBaseLogger, onFailure: OnFailure): Run => ({
  name: "firmware-rings",
  cron: "23 * * * *",
  work: async () => {
    for (const decision of await decideAllRings(db, now(), onFailure)) {
      logger.info(decision, "firmware ring");
    }
  },
});

const recurringRun = (db: Database, logger: FastifyBaseLogger, onFailure: OnFailure): Run => ({
  name: "recurring-inspections",
  cron: "31 * * * *",
  work: async () => {
    const figures = await openRecurringInspections(db, now(), onFailure);
    if (figures.opened + figures.heldUp > 0) logger.info(figures, "recurring inspections");
  },
});

const importRun = (
  db: Database,
  config: Config,
  logger: FastifyBaseLogger,
  onFailure: OnFailure,
): Run => ({
  name: "imports",
  cron: "* * * * *",
  work: async () => {
    const resumed = await resumeImports(db, config, now, onFailure);
    if (resumed > 0) logger.info({ resumed }, "imports taken up");
  },
});

const exportRun = (
  db: Database,
  config: Config,
  logger: FastifyBaseLogger,
  onFailure: OnFailure,
): Run => ({
  name: "evidence-exports",
  cron: "* * * * *",
  work: async () => {
    const resumed = await resumeEvidenceExports(db, config, now, onFailure);
    if (resumed > 0) logger.info({ resumed }, "exports of evidence taken up");
  },
});

const paperRun = (
  db: Database,
  config: Config,
  logger: FastifyBaseLogger,
  onFailure: OnFailure,
): Run => ({
  name: "draw-papers",
  cron: "*/5 * * * *",
  work: async () => {
    const drawn = await drawPapers(db, config, now(), onFailure);
    if (drawn > 0) logger.info({ drawn }, "papers of closed jobs");
  },
});
