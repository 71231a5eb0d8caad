import { z } from "zod";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { INSTRUMENT_CLASSES } from "../../domain/plan/item.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { plainDate, typedText } from "../../web/fields.ts";
import { keepsRecords } from "../../web/office.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { readFirm } from "../firms/store.ts";
import { INSTRUMENT_COLUMNS, sortedIds } from "./page-store.ts";
import { shown } from "./shown.ts";
import { listInstruments } from "./store.ts";

const PageQuery = z.object({
  ...sortedQuery(INSTRUMENT_COLUMNS),
  text: asked(typedText(120)),
  instrumentClass: asked(z.enum(INSTRUMENT_CLASSES)),
  dueBefore: asked(plainDate()),
  retired: asked(z.stringbool()),
});

export const instrumentPages: Feature = async (app, { db, now }) => {
  app.get("/instruments", {
    schema: { operationId: "instrumentsPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { query, language } = request;
      const { sort: _sort, cursor: _cursor, retired = false, ...filter } = query;
      const sorting = sortingOf(query, "reference");
      const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const found = await sortedIds(tx, { ...filter, retired, sorting, most: A_PAGE + 1 });
        const { rows, list } = sortedPage(found, {
          ...{ path: "/instruments", columns: INSTRUMENT_COLUMNS, usual: "reference" },
          ...{ query, exportPath: "/api/v1/exports/instruments.csv" },
        });
        return { list, rows: await standingOf(tx, rows, { retired, now: now(), language }) };
      });
      return sendPage(request, reply, "instruments", {
        title: say(language, "registry.instruments"),
        ...{ ...page, styles: ["registry"] },
        filter: { ...filter, retired },
        classes: INSTRUMENT_CLASSES.map((name) => ({
          ...{ name, text: say(language, `registry.class.${name}`) },
          chosen: name === filter.instrumentClass,
        })),
        filtered: retired || Object.values(filter).some((value) => value !== undefined),
        mayEdit: keepsRecords(request),
      });
    },
  });
};

interface Wish {
  retired: boolean;
  now: Date;
  language: ShownLanguage;
}

/** The instruments of these rows, in their order, each as the rules see it now. */
async function standingOf(
  tx: FirmTransaction,
  rows: readonly { id: string }[],
  { retired, now, language }: Wish,
) {
  const { timeZone } = await readFirm(tx);
  const ids = rows.map(({ id }) => id);
  const found = await listInstruments(tx, { ids, retired, most: ids.length });
  const byId = new Map(found.map((row) => [row.id, row]));
  return ids.flatMap((id) => {
    const row = byId.get(id);
    if (!row) return [];
    const one = shown(row, { now, timeZone });
    return {
      ...one,
      className: say(language, `registry.class.${one.instrumentClass}`),
      due: one.dueOn && plainDay(language, one.dueOn),
    };
  });
}
