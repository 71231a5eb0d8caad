import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { typedText } from "../../web/fields.ts";
import { countByLevel } from "../fleet/models-store.ts";
import { A_PAGE, type ExportList } from "./list.ts";
import { SORTED } from "./lists.ts";

const Query = z.strictObject({
  ...SORTED,
  code: typedText(40).optional().describe("part of the model's code"),
});

/** A line a level, where the page has a line a model. */
export const fleetLevels: ExportList<z.output<typeof Query>> = {
  ...{ name: "fleet-levels", operationId: "exportFleetLevels", query: Query },
  summary: "Take away how many installed units of each model have which level",
  columns: ["model", "name", "level", "units", "target", "belowTarget"],
  async *pages({ db, firmId }, { code }) {
    for (let after: string | undefined; ; ) {
      const page = { code, after, most: A_PAGE };
      const rows = await inFirm(db, firmId, (tx) => countByLevel(tx, page));
      if (rows.length > 0) {
        yield rows.map((row) => [
          ...[row.code, row.name, row.level, row.units, row.target, row.below],
        ]);
      }
      after = rows.at(-1)?.place;
      if (rows.length < A_PAGE) return;
    }
  },
};
