import { Temporal } from "temporal-polyfill";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { dayBounds, localDay, localTime } from "../../domain/dates/zone-time.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { longDay } from "../../language/moments.ts";
import type { Feature } from "../../web/feature.ts";
import { plainDate } from "../../web/fields.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { evaluateJob } from "../close-out/evaluate.ts";
import { readFirm } from "../firms/store.ts";
import { visitsBetween } from "./store.ts";

export const todayPages: Feature = async (app, { db, now }) => {
  app.get("/today", {
    schema: {
      operationId: "todayPage",
      hide: true,
      querystring: z.object({ day: plainDate().optional() }),
    },
    handler: async (request, reply) => {
      const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const { timeZone } = await readFirm(tx);
        const day = request.query.day ?? localDay(now().toISOString(), timeZone);
        const { start, end } = dayBounds(day, timeZone);
        const visits = await visitsBetween(tx, new Date(start), new Date(end));
        const rows = [];
        for (const visit of visits) {
          // Only an open job still has something to wait for.
          const evaluated =
            visit.job.state === "open"
              ? await evaluateJob(tx, visit.jobId, now(), { lock: false })
              : undefined;
          rows.push({ ...visitRow(visit), open: evaluated?.result.blockers.length ?? 0 });
        }
        return { rows, ...dayLinks(day, request.language) };
      });
      const installs = signedIn(request).roles.includes("installer");
      return sendPage(request, reply, "today", { title: page.heading, ...page, installs });
    },
  });
};

type Visit = Awaited<ReturnType<typeof visitsBetween>>[number];

function visitRow(visit: Visit) {
  const { job } = visit;
  const { site } = job;
  return {
    jobId: job.id,
    reference: job.reference,
    title: job.title,
    state: job.state,
    crew: visit.crew.name,
    from: clock(visit.startsAt, site.timeZone),
    to: clock(visit.endsAt, site.timeZone),
    timeZone: site.timeZone,
    customer: site.customer.name,
    place: `${site.addressLine}, ${site.locality}`,
    note: visit.note,
  };
}

function dayLinks(text: string, language: ShownLanguage) {
  const day = Temporal.PlainDate.from(text);
  return {
    heading: longDay(language, text),
    day: text,
    before: day.subtract({ days: 1 }).toString(),
    after: day.add({ days: 1 }).toString(),
  };
}

/** "08:30", on the clock of the place. */
const clock = (time: Date, timeZone: string): string =>
  localTime(time.toISOString(), timeZone).slice(11, 16);
