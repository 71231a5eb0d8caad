import { Temporal } from "temporal-polyfill";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { CountedIn } from "../../domain/kit/line.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime, longDay, number } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { plainDate } from "../../web/fields.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { asked } from "../../web/sorted-list.ts";
import { countedText, toolName } from "../kit/words.ts";
import { readMissing } from "./missing.ts";
import type { MissingVisit } from "./missing-schemas.ts";
import { withinStock } from "./within.ts";

const Query = z.object({ day: asked(plainDate()) });

export const missingPages: Feature = async (app, { db, now }) => {
  app.get("/goods-in/tomorrow", {
    schema: { operationId: "missingPage", hide: true, querystring: Query },
    handler: async (request, reply) => {
      const { language } = request;
      const { day, visits, items } = await inFirm(db, signedIn(request).firmId, (tx) =>
        readMissing(tx, request.query.day, now()),
      );
      const date = Temporal.PlainDate.from(day);
      return sendPage(request, reply, "missing", {
        title: say(language, "kit.missing", { day: longDay(language, day) }),
        styles: ["job"],
        within: withinStock("/goods-in/tomorrow", language),
        ...{ day, visits },
        before: date.subtract({ days: 1 }).toString(),
        after: date.add({ days: 1 }).toString(),
        items: items.map((item) => shownVisit(item, language)),
      });
    },
  });
};

function shownVisit(visit: MissingVisit, language: ShownLanguage) {
  return {
    ...visit,
    at: dayAndTime(language, new Date(visit.startsAt), visit.timeZone).split(", ").at(-1),
    units: visit.units.map((unit) => ({
      ...unit,
      problem: say(language, `kit.unitProblem.${unit.problem}`),
    })),
    consumables: visit.consumables.map(({ code, name, countedIn, amount, there }) => {
      const text = (value: number) =>
        countedIn === null
          ? number(language, value)
          : countedText(value, countedIn as CountedIn, language);
      return { code, name, wanted: text(amount), there: text(there) };
    }),
    instruments: visit.instruments.map(({ toolClass, problem, reference, sentence }) => ({
      ...{ name: toolName(toolClass, language), reference, sentence },
      isBooked: problem === "unfit",
    })),
  };
}
