// Exports that were asked for here are made here, one after the other; the scheduled run takes up
// what another process left.

import { backgroundOf } from "../../web/background.ts";
import type { App, Context } from "../../web/feature.ts";
import { workOn } from "./work.ts";

const FAULT = "an export of evidence failed";

/** Begins as soon as what was begun before is done. */
export const exportsOf = (app: App, context: Context) =>
  backgroundOf(app, context, FAULT, ({ firmId, id, stop }) => {
    const onFault = (error: unknown, exportId: string): void =>
      app.log.error({ err: error, exportId }, FAULT);
    return workOn({ ...context, firmId, stop, onFault }, id);
  });
