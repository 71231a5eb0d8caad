import type { FastifyBaseLogger } from "fastify";
import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import type { OnFailure } from "./each-firm.ts";
import type { Run } from "./queue.ts";
import { remindOfWarranties } from "./warranty-reminders.ts";

export const warrantyRun = (
  db: Database,
  config: Config,
  logger: FastifyBaseLogger,
  onFailure: OnFailure,
): Run => ({
  name: "warranty-reminders",
  cron: "*/10 * * * *",
  work: async () => {
    const figures = await remindOfWarranties(db, config, new Date(), onFailure);
    if (figures.notices > 0) logger.info(figures, "warranty reminders");
  },
});
