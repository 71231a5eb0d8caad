import { type FirmTransaction, forReading, inFirm } from "../../db/scope.ts";
import { drawPlaces } from "../../domain/charts/place-chart.ts";
import { drawStepChart } from "../../domain/charts/step-chart.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { failureRate } from "../../domain/firmware/failure-rate.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { number, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { adoptionSeries, WEEKS, weekEnds } from "./adoption.ts";
import { exposureRows } from "./exposure-rows.ts";
import { FleetQuery, fleetModels } from "./list-models.ts";
import {
  type Cell,
  exposure,
  reachedByWeek,
  sitesByPlace,
  slowestSites,
  updatesSince,
} from "./store.ts";

/** Groups of sites each way on the drawing of places. */
const ACROSS = 40;

export const fleetPages: Feature = async (app, { db, now }) => {
  app.get("/fleet", {
    schema: { operationId: "fleetPage", hide: true, querystring: FleetQuery },
    handler: async (request, reply) => {
      const { language } = request;
      const data = await inFirm(forReading(db), signedIn(request).firmId, async (tx) => {
        const { timeZone } = await readFirm(tx);
        const today = localDay(now().toISOString(), timeZone);
        const { models, list, chosen } = await fleetModels(tx, request.query);
        return {
          models,
          list,
          filter: { code: request.query.code, model: request.query.model },
          today,
          adoption: chosen && (await adoption(tx, chosen, today, language)),
          exposure: exposureRows(await exposure(tx, today), today, language),
          places: await sitesByPlace(tx, { today, across: ACROSS }),
          slowest: await slowestSites(tx, today),
          failures: await failures(tx, now(), language),
        };
      });
      return sendPage(request, reply, "fleet", {
        title: say(language, "fleet.title"),
        ...data,
        slowest: data.slowest.map((site) => ({ ...site, due: plainDay(language, site.dueOn) })),
        drawing: drawPlaces(
          data.places.map((cell) => placeOf(cell, language)),
          say(language, "fleet.places"),
        ),
        places: placeTable(data.places),
      });
    },
  });
};

const FAILURES_DAYS = 180;

/** How many updates on jobs failed, with what chance leaves open (exact 95 % interval). */
async function failures(tx: FirmTransaction, now: Date, language: ShownLanguage) {
  const from = new Date(now.getTime() - FAILURES_DAYS * 86_400_000);
  const { updated, failed } = await updatesSince(tx, from);
  const { rate, low, high } = failureRate(updated + failed, failed);
  const share = (value: number) => number(language, Math.round(value * 1000) / 10);
  return {
    ...{ failed, tried: updated + failed, days: FAILURES_DAYS },
    ...{ rate: share(rate), low: share(low), high: share(high) },
  };
}

async function adoption(
  tx: FirmTransaction,
  model: { id: string; code: string; units: number },
  today: string,
  language: ShownLanguage,
) {
  const rows = await reachedByWeek(tx, model.id, { lastDay: today, weeks: WEEKS });
  const series = adoptionSeries(rows);
  const days = weekEnds(today);
  const title = say(language, "fleet.adoptionOf", { code: model.code, units: model.units });
  return {
    title,
    names: series.map(({ name }) => name),
    chart: drawStepChart({ title, days, series, outOf: model.units }),
    rows: days.map((day, index) => ({
      day: plainDay(language, day),
      counts: series.map(({ values }) => values[index] ?? 0),
    })),
  };
}

function placeOf(cell: Cell, language: ShownLanguage) {
  const standing = cell.overdue > 0 ? "overdue" : cell.due > 0 ? "due" : "fine";
  const { sites, due, overdue } = cell;
  return {
    ...{ latitude: cell.latitude, longitude: cell.longitude, sites },
    standing: standing as "overdue" | "due" | "fine",
    name:
      sites === 1
        ? `${cell.name}: ${say(language, `fleet.standing.${standing}`)}`
        : say(language, "fleet.group", { sites, due, overdue }),
    ...(sites === 1 ? { href: `/sites/${cell.siteId}` } : {}),
  };
}

const PLACES_LISTED = 30;

/** The groups with most that is due, as the table beside the drawing. */
const placeTable = (cells: readonly Cell[]) =>
  cells
    .filter(({ due }) => due > 0)
    .toSorted((left, right) => right.overdue - left.overdue || right.due - left.due)
    .slice(0, PLACES_LISTED);
