import type { FastifyReply, FastifyRequest } from "fastify";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime, plainDay } from "../../language/moments.ts";
import { isMessageKey, say } from "../../language/say.ts";
import type { Context } from "../../web/feature.ts";
import type { FieldProblems, FormBody } from "../../web/form.ts";
import { keepsRecords } from "../../web/office.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { changesView } from "../changes/view.ts";
import { readFirm } from "../firms/store.ts";
import { shownWithCalibrations } from "./shown.ts";
import type { Here } from "./standing.ts";
import { findInstrument, type InstrumentRow } from "./store.ts";

export interface ShownInstrument {
  id: string;
  saved?: string | undefined;
  /** What was typed into the form of a calibration. */
  typed: FormBody;
  problems?: FieldProblems;
}

export async function showInstrument(
  request: FastifyRequest,
  reply: FastifyReply,
  { db, now }: Context,
  { id, saved, typed, problems }: ShownInstrument,
) {
  const { language } = request;
  const may = keepsRecords(request);
  const asks = { kind: "instrument", subjectId: id, path: `/instruments/${id}` } as const;
  const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
    const row = await findInstrument(tx, id);
    if (!row) throw notFound("instrument");
    const { timeZone } = await readFirm(tx);
    return {
      ...instrumentView(row, { now: now(), timeZone }, language),
      ...(await changesView(tx, { ...asks, saved, mayUndo: may }, language)),
    };
  });
  const { reference, name } = page.instrument;
  return sendPage(request, reply, "instrument", {
    ...{ title: `${reference} ${name}`, ...page, typed, problems, mayEdit: may },
    outcomes: [
      { value: "true", text: say(language, "registry.passed") },
      { value: "false", text: say(language, "registry.failed") },
    ],
    styles: ["registry"],
  });
}

/** The instrument as the rules see it here and now, in the reader's words. */
function instrumentView(row: InstrumentRow, here: Here, language: ShownLanguage) {
  const instrument = shownWithCalibrations(row, here);
  const { dueOn, retiredOn, instrumentClass } = instrument;
  return {
    instrument,
    className: say(language, `registry.class.${instrumentClass}`),
    due: dueOn && plainDay(language, dueOn),
    retired: retiredOn && plainDay(language, retiredOn),
    calibrations: instrument.calibrations.map((calibration) => ({
      ...calibration,
      on: plainDay(language, calibration.calibratedOn),
      until: plainDay(language, calibration.dueOn),
    })),
    events: row.events.map(({ kind, at, note }) => {
      const key = `registry.happened.${kind}`;
      const what = isMessageKey(key) ? say(language, key) : kind;
      return { what, note, when: dayAndTime(language, at, here.timeZone) };
    }),
  };
}
