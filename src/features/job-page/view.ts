import type { Fact } from "../../domain/closeout/gate.ts";
import { subjectsOf } from "../../domain/plan/subjects.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { asKept } from "../../web/as-kept.ts";
import type { Role } from "../../web/roles.ts";
import { toContext } from "../job-record/context.ts";
import type { JOB_KINDS, JOB_STATES } from "../jobs/schemas.ts";
import { bytesText } from "./bytes-text.ts";
import { shownPhoto } from "./photo-captions.ts";
import type { JobPageData } from "./read-page.ts";
import { stagesOf } from "./stages.ts";

/** A job that has not begun has dozens; the first of them are what is next. */
const BLOCKERS_UNFOLDED = 8;

/** What the template of a job's page shows. */
export function jobView(data: JobPageData, roles: readonly Role[], language: ShownLanguage) {
  const { evaluated, job, closeOut, tablet, names, doubts } = data;
  const { timeZone } = evaluated.record.job;
  const at = (time: Date) => dayAndTime(language, time, timeZone);
  const unitSystem = data.firm.unitSystem === "us" ? ("us" as const) : ("metric" as const);
  const shown = { language, unitSystem, names, doubts };
  return {
    job,
    kindName: say(language, `job.kind.${job.kind as (typeof JOB_KINDS)[number]}`),
    stateName: say(language, `job.state.${job.state as (typeof JOB_STATES)[number]}`),
    address: `${job.site.addressLine}, ${job.site.locality} ${job.site.postcode}`,
    isOpen: job.state === "open",
    blockers: evaluated.result.blockers.slice(0, BLOCKERS_UNFOLDED),
    moreBlockers: evaluated.result.blockers.slice(BLOCKERS_UNFOLDED),
    blockerCount: evaluated.result.blockers.length,
    stages: stagesOf(evaluated, closeOut?.facts as Fact[] | undefined, shown),
    closeOut: closeOut && { head: closeOut.ledgerSha256, at: at(closeOut.closedAt) },
    ...tablet,
    units: evaluated.record.units,
    visits: visitsOf(data, at, language),
    photos: data.photos.rows.map((photo) =>
      shownPhoto(photo, evaluated.plan, evaluated.record, language),
    ),
    photoCount: data.photos.count,
    concessions: concessionsOf(data, at, language),
    snags: snagsOf(data, at, language),
    followsUp: data.followsUp,
    messages: messagesOf(data, at),
    unread: data.standing.unread,
    documents: data.documents.map((row) => ({
      ...row,
      size: bytesText(row.bytes, language),
      by: row.person.name,
      at: at(row.receivedAt),
    })),
    ...rightsOf(roles),
  };
}

/** What the page offers; each act asks for the role again. */
function rightsOf(roles: readonly Role[]) {
  const may = (...wanted: Role[]) => roles.some((role) => wanted.includes(role));
  return {
    isManager: may("manager"),
    mayDecide: may("office", "manager"),
    mayClose: may("installer", "office", "manager"),
    mayWrite: may("owner", "office", "manager", "installer"),
    mayBook: may("owner", "office", "manager"),
    mayExport: may("auditor", "office", "manager", "owner"),
    mayRemove: may("owner", "office", "manager"),
  };
}

type At = (time: Date) => string;

function visitsOf({ visits }: JobPageData, at: At, language: ShownLanguage) {
  return visits.map(({ id, startsAt, endsAt, crew, note, state, bookings }) => ({
    ...{ id, note, crew: crew.name, isCancelled: state === "cancelled" },
    from: at(startsAt),
    to: at(endsAt).split(", ").at(-1),
    people: bookings.flatMap(({ person }) => person?.name ?? []).join(", "),
    stateName: say(language, state === "cancelled" ? "job.visitCancelled" : "job.visitBooked"),
  }));
}

function concessionsOf(data: JobPageData, at: At, language: ShownLanguage) {
  const { plan, record } = data.evaluated;
  const context = toContext(record, new Date(0));
  return data.concessions.map((row) => {
    const compiled = plan.byId.get(row.itemId);
    const subjects = compiled ? subjectsOf(compiled.item, context) : [];
    return {
      id: row.id,
      title: compiled?.item.title ?? row.itemId,
      subjectLabel: subjects.find(({ key }) => key === row.subject)?.label,
      reason: asKept(language, row.reason),
      by: data.names.get(row.grantedById),
      at: at(row.grantedAt),
      expires: row.expiresOn && plainDay(language, row.expiresOn.toISOString().slice(0, 10)),
      revoked: row.revokedAt && at(row.revokedAt),
      revokedBy: row.revokedById && data.names.get(row.revokedById),
    };
  });
}

function snagsOf({ snags }: JobPageData, at: At, language: ShownLanguage) {
  return snags.map((snag) => ({
    ...snag,
    title: asKept(language, snag.title),
    isOpen: snag.state === "open",
    raised: at(snag.raisedAt),
    mended: snag.mendedAt && at(snag.mendedAt),
    visit: snag.followUpVisit?.state === "booked" ? at(snag.followUpVisit.startsAt) : undefined,
  }));
}

function messagesOf({ messages, standing }: JobPageData, at: At) {
  return messages.map((row) => ({
    ...{ text: row.text, by: row.person.name, at: at(row.writtenAt), fromTablet: row.fromTablet },
    isNew: row.number > standing.through,
  }));
}
