import type { FastifyReply, FastifyRequest } from "fastify";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { shortDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Context } from "../../web/feature.ts";
import type { FieldProblems, FormBody } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { afterId } from "../../web/paging.ts";
import { signedIn } from "../../web/session.ts";
import { listCrews } from "../crews/store.ts";
import { todayOfFirm } from "../firms/today.ts";
import { chosenJob, chosenVisit, undoOf } from "./at-hand.ts";
import { listUnplaced } from "./list-unplaced.ts";
import { addressOf, type DiaryPageQuery } from "./page-address.ts";
import { readDiary } from "./read-diary.ts";
import { isToldReasons } from "./told-reasons.ts";
import { daysOn, mondayOf, weekView } from "./week-view.ts";

const WAITING_MOST = 20;
const CREWS_MOST = 200;
const PLACING = ["owner", "office", "manager"] as const;

export interface ShownDiary {
  query: DiaryPageQuery;
  /** A form that was refused, and why. */
  typed?: FormBody;
  problems?: FieldProblems;
}

export async function showDiary(
  { db, now }: Context,
  request: FastifyRequest,
  reply: FastifyReply,
  { query, typed, problems }: ShownDiary,
) {
  const { firmId, roles } = signedIn(request);
  const { language } = request;
  const mayPlace = PLACING.some((role) => roles.includes(role));
  const { by = "crew" } = query;
  const withReasons = isToldReasons(roles);
  const data = await inFirm(db, firmId, (tx) =>
    readAll(tx, { ...query, by }, { mayPlace, withReasons, now: now() }),
  );
  const { monday, today, job, visit } = data;
  const to = (more: DiaryPageQuery) => addressOf({ by, day: monday, ...more });
  return sendPage(request, reply, "diary", {
    ...{ title: say(language, "diary.title"), styles: ["diary"], scripts: ["diary"] },
    job: job && {
      ...job,
      suggestions: job.suggestions.map((one) => ({ ...one, dayName: shortDay(language, one.day) })),
    },
    ...{ mayPlace, problems, visit, undo: data.undo, by, monday, waiting: data.waiting },
    typed: { ...job?.typed, ...visit?.typed, ...typed },
    crews: data.crews.map(({ id, name }) => ({ value: id, text: name })),
    week: weekView(data.diary, { by, chosen: query.visit, language }),
    sunday: daysOn(monday, 6),
    timeZone: data.diary.timeZone,
    isByCrew: by === "crew",
    links: {
      ...{ earlier: to({ day: daysOn(monday, -7) }), later: to({ day: daysOn(monday, 7) }) },
      ...{ today: to({ day: today }), byCrew: to({ by: "crew" }), byPerson: to({ by: "person" }) },
    },
  });
}

async function readAll(
  tx: FirmTransaction,
  query: DiaryPageQuery & { by: "crew" | "person" },
  { mayPlace, withReasons, now }: { mayPlace: boolean; withReasons: boolean; now: Date },
) {
  const { by } = query;
  const today = await todayOfFirm(tx, now);
  const visit = query.visit && mayPlace ? await chosenVisit(tx, query.visit) : undefined;
  const monday = mondayOf(query.day ?? visit?.typed.day ?? today);
  const span = { from: monday, to: daysOn(monday, 6), by, withReasons };
  return {
    ...{ today, monday, visit, diary: await readDiary(tx, span, now) },
    job: query.job && mayPlace ? await chosenJob(tx, query.job, monday, now) : undefined,
    crews: await listCrews(tx, { active: true, most: CREWS_MOST }),
    waiting: mayPlace ? await waitingJobs(tx, query.cursor, now) : undefined,
    undo: mayPlace ? await undoOf(tx, query) : undefined,
  };
}

async function waitingJobs(tx: FirmTransaction, cursor: string | undefined, now: Date) {
  const after = afterId(cursor);
  const rows = await listUnplaced(tx, { kind: undefined, after, most: WAITING_MOST + 1, now });
  const last = rows.length > WAITING_MOST ? rows[WAITING_MOST - 1] : undefined;
  return {
    jobs: rows.slice(0, WAITING_MOST).map((row) => ({
      ...row,
      hours: Math.round(row.duration.minutes / 6) / 10,
      opened: localDay(row.openedAt, row.site.timeZone),
    })),
    more: last && Buffer.from(last.id).toString("base64url"),
  };
}
