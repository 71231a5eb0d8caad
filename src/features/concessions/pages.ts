import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import {
  CONCESSION_STATES,
  type ConcessionState,
} from "../../domain/corrective/concession-state.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import {
  grantors,
  REGISTER_COLUMNS,
  type RegisterRow,
  registeredConcessions,
} from "./register-store.ts";
import { stateOf } from "./register-view.ts";

const PATH = "/concessions";
const USUAL = "-granted";
const GRANTORS_MOST = 200;
const PageQuery = z.object({
  ...sortedQuery(REGISTER_COLUMNS),
  state: asked(z.enum(CONCESSION_STATES)),
  grantedById: asked(z.guid()),
  jobId: asked(z.guid()),
  siteId: asked(z.guid()),
  q: asked(z.string().max(120)),
});

export const concessionPages: Feature = async (app, { db, now }) => {
  app.get(PATH, {
    schema: { operationId: "concessionsPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { query, language } = request;
      const { sort: _sort, cursor: _cursor, ...filter } = query;
      const sorting = sortingOf(query, USUAL);
      const { found, people } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
        found: await registeredConcessions(tx, { ...filter, sorting, most: A_PAGE + 1 }, now()),
        people: await grantors(tx, GRANTORS_MOST),
      }));
      const { rows, list } = sortedPage(found, {
        ...{ path: PATH, columns: REGISTER_COLUMNS, usual: USUAL, query },
        exportPath: "/api/v1/exports/concessions.csv",
      });
      return sendPage(request, reply, "concessions", {
        title: say(language, "concessions.title"),
        ...{ list, filter, people, styles: ["registry"] },
        rows: rows.map((row) => listed(row, now(), language)),
        states: CONCESSION_STATES.map((value) => ({ value, text: stateName(value, language) })),
        filtered: Object.values(filter).some((value) => value !== undefined),
      });
    },
  });
};

const stateName = (state: ConcessionState, language: ShownLanguage) =>
  say(language, `concessions.state.${state}`);

const TAGS: Readonly<Record<ConcessionState, { tag: string; mark: string }>> = {
  "in-force": { tag: "good", mark: "◇" },
  expiring: { tag: "warn", mark: "▲" },
  expired: { tag: "bad", mark: "✕" },
  withdrawn: { tag: "plain", mark: "–" },
};

function listed(row: RegisterRow, now: Date, language: ShownLanguage) {
  const state = stateOf(row, now);
  const day = (moment: Date) => plainDay(language, moment.toISOString().slice(0, 10));
  return {
    ...{ ...row, ...TAGS[state], stateName: stateName(state, language) },
    granted: day(row.grantedAt),
    expires: row.expiresOn && plainDay(language, row.expiresOn),
    revoked: row.revokedAt && day(row.revokedAt),
  };
}
