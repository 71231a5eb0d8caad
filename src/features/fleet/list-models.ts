// The fleet page's table of models, a page at a time, and the model whose releases it draws.
import { z } from "zod";
import type { FirmTransaction } from "../../db/scope.ts";
import { typedText } from "../../web/fields.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { FLEET_COLUMNS, fleetModel, levelsOf, sortedFleetModels } from "./models-store.ts";

const PATH = "/fleet";
const USUAL = "code";
const EXPORT = "/api/v1/exports/fleet-levels.csv";
const LEVELS_OF_EACH = 12;

export const FleetQuery = z.object({
  ...sortedQuery(FLEET_COLUMNS),
  code: asked(typedText(40)),
  model: asked(z.guid()),
});
type FleetQuery = z.output<typeof FleetQuery>;

export async function fleetModels(tx: FirmTransaction, query: FleetQuery) {
  const { code } = query;
  const asks = { code, sorting: sortingOf(query, USUAL), most: A_PAGE + 1 };
  const { rows, list } = sortedPage(await sortedFleetModels(tx, asks), {
    ...{ path: PATH, columns: FLEET_COLUMNS, usual: USUAL, query, part: "models" },
  });
  const ids = rows.map(({ id }) => id);
  const levels = Map.groupBy(await levelsOf(tx, ids, LEVELS_OF_EACH), ({ modelId }) => modelId);
  const named = query.model ? await fleetModel(tx, query.model) : null;
  const chosen = named ?? (await fleetModel(tx));
  return {
    chosen,
    // The model that is drawn is no filter of the table.
    list: { ...list, exported: code ? `${EXPORT}?${new URLSearchParams({ code })}` : EXPORT },
    models: rows.map((row) => {
      const shown = levels.get(row.id) ?? [];
      const more = (shown[0]?.levels ?? 0) - shown.length;
      return {
        ...{ ...row, levels: shown, ...(more > 0 ? { more } : {}) },
        ...{ href: adoptionAddress(query, row.id), isChosen: row.id === chosen?.id },
      };
    }),
  };
}

/** The same page of the table, and another model drawn below it. */
function adoptionAddress({ sort, cursor, code }: FleetQuery, model: string): string {
  const parameters = new URLSearchParams({ model });
  for (const [name, value] of Object.entries({ sort, cursor, code })) {
    if (value) parameters.set(name, value);
  }
  return `${PATH}?${parameters}#adoption`;
}
