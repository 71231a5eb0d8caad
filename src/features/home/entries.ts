import { Temporal } from "temporal-polyfill";
import type { FirmTransaction } from "../../db/scope.ts";
import { dayBounds, localTime } from "../../domain/dates/zone-time.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { retell } from "../../language/sentences/retell.ts";
import { evaluateJob } from "../close-out/evaluate.ts";
import { slowestSites } from "../fleet/store.ts";
import { shown } from "../instruments/shown.ts";
import { listInstruments } from "../instruments/store.ts";
import { countUndecided } from "../tablet/held-store.ts";
import { followUpsDue } from "./follow-ups-due.ts";
import type { Entry, SectionName } from "./sections.ts";
import {
  concessionsEnding,
  failedMails,
  jobsUnderWay,
  latestRecords,
  qualificationsLapsing,
  visitsOn,
} from "./store.ts";

/** Lines of a section; whoever wants the rest goes to the list. */
const LINES = 8;
/** Putting a job before the gate reads its whole record: so many at most for one page. */
const JOBS_EVALUATED = 12;
const REASONS_TOLD = 2;
const DAYS_AHEAD = 30;
const INSTRUMENTS_READ = 60;

export interface Viewer {
  personId: string;
  /** Sees the whole firm's work, not only what they are sent to. */
  seesAll: boolean;
  now: Date;
  today: string;
  timeZone: string;
  language: ShownLanguage;
}

type Reader = (tx: FirmTransaction, viewer: Viewer) => Promise<Entry[]>;

const visits: Reader = async (tx, { personId, seesAll, today, timeZone }) => {
  const { start, end } = dayBounds(today, timeZone);
  const found = await visitsOn(tx, {
    ...{ from: new Date(start), to: new Date(end), most: LINES },
    ...(seesAll ? {} : { personId }),
  });
  return found.map(({ startsAt, endsAt, crew, job }) => {
    const clock = (time: Date) => localTime(time.toISOString(), job.site.timeZone).slice(11, 16);
    return {
      href: `/jobs/${job.id}`,
      text: `${clock(startsAt)}–${clock(endsAt)} ${job.reference} ${job.title}`,
      detail: `${job.site.addressLine}, ${job.site.locality} · ${crew.name}`,
    };
  });
};

const blocked: Reader = async (tx, { personId, seesAll, now, language }) => {
  const who = seesAll ? {} : { personId };
  const jobs = await jobsUnderWay(tx, { now, most: JOBS_EVALUATED, ...who });
  const entries: Entry[] = [];
  for (const { id, reference, title, place } of jobs) {
    const evaluated = await evaluateJob(tx, id, now, { lock: false });
    const blockers = evaluated?.result.blockers ?? [];
    if (blockers.length === 0) continue;
    const told = blockers
      .slice(0, REASONS_TOLD)
      .map(({ title: item, sentence }) => `${item}: ${retell(language, sentence)}`);
    entries.push({
      href: `/jobs/${id}`,
      text: `${reference} ${title}`,
      detail: [place, ...told].join(" · "),
      tag: {
        kind: "warn",
        mark: "▲",
        text: say(language, "home.open", { count: blockers.length }),
      },
    });
  }
  return entries.slice(0, LINES);
};

const held: Reader = async (tx, { language }) => {
  const count = await countUndecided(tx);
  if (count === 0) return [];
  return [{ href: "/held", text: say(language, "home.heldOps", { count }) }];
};

const overdue: Reader = async (tx, { today, language }) => {
  const sites = await slowestSites(tx, today);
  return sites.slice(0, LINES).map(({ siteId, reference, locality, units, daysOver }) => ({
    href: `/sites/${siteId}`,
    text: `${reference} ${locality}`,
    detail: say(language, "home.unitsBelow", { units }),
    tag: { kind: "bad", mark: "✕", text: say(language, "home.daysOver", { days: daysOver }) },
  }));
};

const mails: Reader = async (tx, { language }) =>
  (await failedMails(tx, LINES)).map(({ subject, recipient, lastError, state }) => ({
    href: `/outbox?state=${state}`,
    text: subject,
    detail: [recipient, lastError && retell(language, lastError)].filter(Boolean).join(" · "),
    tag: { kind: "bad", mark: "✕", text: say(language, "home.notDelivered") },
  }));

const instruments: Reader = async (tx, { now, today, timeZone, language }) => {
  const dueBefore = Temporal.PlainDate.from(today).add({ days: DAYS_AHEAD }).toString();
  const rows = await listInstruments(tx, { retired: false, dueBefore, most: INSTRUMENTS_READ });
  return rows
    .map((row) => shown(row, { now, timeZone }))
    .sort((left, right) => (left.dueOn ?? "").localeCompare(right.dueOn ?? ""))
    .slice(0, LINES)
    .map((one) => ({
      href: `/instruments/${one.id}`,
      text: `${one.reference} ${one.name}`,
      ...(one.reason ? { detail: retell(language, one.reason.sentence) } : {}),
      tag: one.fitNow
        ? {
            ...{ kind: "warn" as const, mark: "▲" },
            text: say(language, "home.dueOn", { day: plainDay(language, one.dueOn ?? today) }),
          }
        : { kind: "bad" as const, mark: "✕", text: say(language, "home.notFit") },
    }));
};

const qualifications: Reader = async (tx, { personId, seesAll, today, language }) => {
  const who = seesAll ? {} : { personId };
  const found = await qualificationsLapsing(tx, { today, most: LINES, ...who });
  return found.map(({ name, kind, until }) => {
    const over = until < today;
    return {
      href: seesAll ? "/people" : "/account",
      text: seesAll ? `${name}: ${kind}` : kind,
      tag: ending(until, over, language),
    };
  });
};

const ending = (last: string, over: boolean, language: ShownLanguage): Entry["tag"] => ({
  ...{ kind: over ? ("bad" as const) : ("warn" as const), mark: over ? "✕" : "▲" },
  text: say(language, over ? "home.ended" : "home.ends", { day: plainDay(language, last) }),
});

const concessions: Reader = async (tx, { today, language }) => {
  const day = Temporal.PlainDate.from(today).add({ days: DAYS_AHEAD }).toString();
  const found = await concessionsEnding(tx, day, LINES);
  return found.map(({ job, reason, expiresOn }) => {
    const last = expiresOn?.toISOString().slice(0, 10) ?? today;
    return {
      href: `/jobs/${job.id}`,
      text: `${job.reference} ${job.title}`,
      detail: reason,
      tag: ending(last, last < today, language),
    };
  });
};

const records: Reader = async (tx, { timeZone, language }) =>
  (await latestRecords(tx, LINES)).map(({ job, closedAt, closedBy }) => ({
    href: `/jobs/${job.id}`,
    text: `${job.reference} ${job.title}`,
    detail: [
      `${job.site.reference} ${job.site.locality}`,
      say(language, "home.closed", {
        ...{ who: closedBy.name, when: dayAndTime(language, closedAt, timeZone) },
      }),
    ].join(" · "),
    tag: { kind: "good", mark: "✓", text: say(language, "home.closedTag") },
  }));

export const READERS: Readonly<Record<SectionName, Reader>> = {
  visits,
  blocked,
  held,
  overdue,
  nonconformances: (tx, viewer) => followUpsDue(tx, viewer, LINES),
  mails,
  instruments,
  qualifications,
  concessions,
  records,
};
