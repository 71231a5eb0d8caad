import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { listView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { asked, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { listCrews } from "../crews/store.ts";
import { JOB_KINDS, JOB_STATES } from "../jobs/schemas.ts";
import { BLOCKED_BY } from "./blocked-by.ts";
import { type FoundJobs, findJobs } from "./find-jobs.ts";
import { JOB_COLUMNS } from "./store.ts";

const USUAL = "-opened";
const CREWS_MOST = 200;
const STATES = [...JOB_STATES, "all"] as const;

const Query = z.object({
  ...sortedQuery(JOB_COLUMNS),
  state: asked(z.enum(STATES)),
  kind: asked(z.enum(JOB_KINDS)),
  crewId: asked(z.guid()),
  blockedBy: asked(z.enum(BLOCKED_BY)),
  q: asked(z.string().trim().max(100)),
});

export const jobListPages: Feature = async (app, { db, now }) => {
  app.get("/jobs", {
    schema: { operationId: "jobsPage", hide: true, querystring: Query },
    handler: async (request, reply) => {
      const { language } = request;
      const { sort, cursor, ...query } = request.query;
      const { state = "open", kind, crewId, blockedBy, q } = query;
      const { firmId, roles } = signedIn(request);
      const filter = {
        ...{ kind, crewId, blockedBy, text: q },
        state: state === "all" ? undefined : state,
      };
      const sorting = sortingOf({ sort, cursor }, USUAL);
      const found = await findJobs(db, firmId, filter, sorting, now());
      const crews = await inFirm(db, firmId, (tx) =>
        listCrews(tx, { active: true, most: CREWS_MOST }),
      );
      const next = found.next && JSON.stringify([found.next.text, found.next.id]);
      return sendPage(request, reply, "jobs", {
        title: say(language, "job.list.title"),
        jobs: found.rows.map((row) => shownRow(row, language)),
        lookedAt: found.lookedAt,
        filter: { ...query, state },
        states: choices(STATES, state, (name) => say(language, `job.state.${name}`)),
        kinds: choices(JOB_KINDS, kind, (name) => say(language, `job.kind.${name}`)),
        blocks: choices(BLOCKED_BY, blockedBy, (name) => say(language, `job.blockedBy.${name}`)),
        crews: crews.map(({ id, name }) => ({ value: id, text: name, chosen: id === crewId })),
        mayOpen: roles.some((role) => ["owner", "office", "manager"].includes(role)),
        list: listView({
          ...{ path: "/jobs", columns: JOB_COLUMNS, sort: sort ?? USUAL, cursor },
          filters: { ...query, state },
          next: next ? Buffer.from(next).toString("base64url") : null,
          exportPath: "/api/v1/exports/jobs.csv",
        }),
      });
    },
  });
};

function choices<Name extends string>(
  names: readonly Name[],
  chosen: Name | undefined,
  textOf: (name: Name) => string,
) {
  return names.map((value) => ({ value, text: textOf(value), chosen: value === chosen }));
}

function shownRow(row: FoundJobs["rows"][number], language: ShownLanguage) {
  return {
    ...row,
    kindName: say(language, `job.kind.${row.kind as (typeof JOB_KINDS)[number]}`),
    stateName: say(language, `job.state.${row.state as (typeof JOB_STATES)[number]}`),
    visit: row.visitAt && dayAndTime(language, row.visitAt, row.timeZone),
    opened: plainDay(language, row.createdAt.toISOString().slice(0, 10)),
  };
}
