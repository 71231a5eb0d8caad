import { z } from "zod";
import type { FirmTransaction } from "../../db/scope.ts";
import { invalid } from "../../errors.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { isMessageKey, say } from "../../language/say.ts";
import { asKept } from "../../web/as-kept.ts";
import { listView } from "../../web/list-view.ts";
import { fieldName } from "../changes/shown.ts";
import {
  readTimeLine,
  TIME_LINE_PARTS,
  type TimeLinePart,
  type TimeLineRow,
} from "./time-line-store.ts";

const A_PAGE = 30;
const Cursor = z.tuple([z.iso.datetime(), z.guid()]);

export interface TimeLineAsked {
  part?: TimeLinePart | undefined;
  cursor?: string | undefined;
}

/** A page of what happened at the site, in words, with the links that lead on. */
export async function timeLineView(
  tx: FirmTransaction,
  site: { id: string; timeZone: string },
  { part, cursor }: TimeLineAsked,
  language: ShownLanguage,
) {
  const after = cursor === undefined ? undefined : placeOf(cursor);
  const rows = await readTimeLine(tx, { siteId: site.id, part, after, most: A_PAGE + 1 });
  const last = rows.length > A_PAGE ? rows[A_PAGE - 1] : undefined;
  return {
    timeLine: rows.slice(0, A_PAGE).map((row) => ({
      when: dayAndTime(language, row.at, site.timeZone),
      text: sentence(row, language),
      note: asKept(language, writtenIn(row)),
      href: addressOf(row, site.id),
      about: row.facts.reference ?? row.facts.serial ?? row.facts.number,
    })),
    parts: TIME_LINE_PARTS.map((name) => ({
      name,
      text: say(language, `registry.part.${name}`),
      chosen: name === part,
    })),
    list: listView({
      ...{ path: `/sites/${site.id}`, filters: { part }, cursor },
      next: last ? cursorOf(last) : null,
    }),
    part,
  };
}

const cursorOf = ({ at, id }: TimeLineRow): string =>
  Buffer.from(JSON.stringify([at.toISOString(), id])).toString("base64url");

function placeOf(cursor: string): { at: Date; id: string } {
  try {
    const [at, id] = Cursor.parse(JSON.parse(Buffer.from(cursor, "base64url").toString("utf8")));
    return { at: new Date(at), id };
  } catch {
    throw invalid("/query/cursor", "is not a cursor of this list");
  }
}

function sentence({ kind, facts }: TimeLineRow, language: ShownLanguage): string {
  const key = `registry.event.${kind}`;
  if (!isMessageKey(key)) return kind;
  const who = facts.who ?? say(language, "registry.byProgram");
  const fields = String(facts.fields ?? "")
    .split(",")
    .map((column) => {
      const field = `registry.field.${fieldName(column)}`;
      return isMessageKey(field) ? say(language, field) : column;
    })
    .join(", ");
  const state = `registry.mail.${facts.state}`;
  return say(language, key, {
    ...facts,
    ...(facts.title === undefined ? {} : { title: asKept(language, String(facts.title)) }),
    ...{ who, fields },
    state: isMessageKey(state) ? say(language, state) : (facts.state ?? ""),
  });
}

const writtenIn = ({ facts }: TimeLineRow): string | undefined => {
  const written = facts.reason ?? facts.note;
  return written === null || written === undefined ? undefined : String(written);
};

function addressOf({ kind, facts }: TimeLineRow, siteId: string): string | undefined {
  if (facts.nonconformanceId) return `/nonconformances/${facts.nonconformanceId}`;
  if (facts.jobId) return `/jobs/${facts.jobId}`;
  if (facts.unitId) return `/units/${facts.unitId}`;
  return kind === "survey" ? `/sites/${siteId}/survey?surveyVersion=${facts.number}` : undefined;
}
