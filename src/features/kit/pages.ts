import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import type { KitItem } from "../../domain/kit/kit-item.ts";
import type { KitCategory } from "../../domain/kit/line.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { readJobKit, takeTickBack, tickLine } from "./job-kit.ts";
import { NewKitTick } from "./schemas.ts";
import type { TickRow } from "./store.ts";
import { amountText, gapText, nameText, noteText, type Reader } from "./words.ts";

const CATEGORIES: readonly KitCategory[] = [
  ...(["unit", "anchor", "cable", "consumable", "tool", "protective-equipment"] as const),
];
const UndoParams = IdParams.extend({ tickId: z.guid() });
const Line = z.object({ line: z.coerce.number().int().min(0).max(10_000).default(0) });
const TickForm = NewKitTick.extend(Line.shape);

export const kitPages: Feature = async (app, { db, now }) => {
  app.get("/jobs/:id/kit", {
    schema: { operationId: "jobKitPage", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { language } = request;
      const { firmId, personId, roles } = signedIn(request);
      const data = await inFirm(db, firmId, async (tx) => ({
        ...(await readJobKit(tx, request.params.id)),
        firm: await readFirm(tx),
      }));
      const { job, kit, ticks, firm } = data;
      const unitSystem = firm.unitSystem === "us" ? ("us" as const) : ("metric" as const);
      const reader = { language, unitSystem };
      const byLine = Map.groupBy(ticks, ({ lineKey }) => lineKey);
      const lines = kit.items.map((item, index) => ({
        ...shownItem(item, reader),
        line: index + 1,
        ...ticksOf(byLine.get(item.key) ?? [], personId, (time) =>
          dayAndTime(language, time, job.site.timeZone),
        ),
      }));
      const packed = lines.filter(({ ticks: of }) => of.length > 0).length;
      return sendPage(request, reply, "kit", {
        title: say(language, "kit.title", { job: job.reference }),
        styles: ["job"],
        job,
        groups: CATEGORIES.map((category) => ({
          name: say(language, `kit.category.${category}`),
          lines: lines.filter((one) => one.category === category),
        })).filter((group) => group.lines.length > 0),
        inTheBox: kit.inTheBox.map((item) => shownItem(item, reader)),
        gaps: kit.gaps.map((gap) => gapText(gap, language)),
        hasAnchors: kit.items.some(({ category }) => category === "anchor"),
        packed,
        all: lines.length,
        isPacked: lines.length > 0 && packed === lines.length,
        mayTick: job.state === "open" && roles.some((role) => role !== "auditor"),
      });
    },
  });

  app.post("/jobs/:id/kit/ticks", {
    schema: { operationId: "tickKitForm", hide: true, params: IdParams, body: TickForm },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { lineKey, line } = request.body;
      const session = signedIn(request);
      await inFirmAs(db, session, (tx) => tickLine(tx, id, lineKey, session.personId, now()));
      return reply.redirect(`/jobs/${id}/kit#line-${line}`, 303);
    },
  });

  app.post("/jobs/:id/kit/ticks/:tickId/undo", {
    schema: { operationId: "undoKitTickForm", hide: true, params: UndoParams, body: Line },
    handler: async (request, reply) => {
      const { id, tickId } = request.params;
      const session = signedIn(request);
      await inFirmAs(db, session, (tx) => takeTickBack(tx, id, tickId, session.personId, now()));
      return reply.redirect(`/jobs/${id}/kit#line-${request.body.line}`, 303);
    },
  });
};

function shownItem(item: KitItem, reader: Reader) {
  return {
    key: item.key,
    category: item.category,
    name: nameText(item, reader.language),
    amount: amountText(item, reader.language),
    stockCode: item.stockCode,
    notes: item.notes.map((note) => noteText(note, reader)),
    sources: item.sources.join(" · "),
  };
}

function ticksOf(rows: readonly TickRow[], personId: string, at: (time: Date) => string) {
  return {
    ticks: rows.map(({ id, person, tickedAt }) => ({
      ...{ id, by: person.name, at: at(tickedAt) },
    })),
    isMine: rows.some((row) => row.personId === personId),
  };
}
