// Imports that were started here are worked on here, one after the other; the scheduled run takes
// up what another process left.
import { backgroundOf } from "../../web/background.ts";
import type { App, Context } from "../../web/feature.ts";
import { workOn } from "./work.ts";

const FAULT = "an import failed";

/** The one of this server; it stops with it. */
export const importsOf = (app: App, context: Context) =>
  backgroundOf(app, context, FAULT, ({ firmId, id, stop }) => {
    const place = { db: context.db, dataFolder: context.config.dataFolder, firmId };
    const onFault = (error: unknown, importId: string): void =>
      app.log.error({ err: error, importId }, FAULT);
    return workOn({ ...place, now: context.now, onFault, stop }, id);
  });
