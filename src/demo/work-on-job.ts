// A crew's day on a job: pictures, then answers, sent as a tablet sends them.
import type { Temporal } from "temporal-polyfill";
import { transactionQuery } from "../db/query.ts";
import { inFirm } from "../db/scope.ts";
import { submitAnswers } from "../features/answers/submit-answers.ts";
import { toContext } from "../features/job-record/context.ts";
import { compiledPlan } from "../features/job-record/plan-store.ts";
import { readJobRecord } from "../features/job-record/store.ts";
import { receivePhoto } from "../features/photos/receive-photo.ts";
import type { Answering } from "./answering.ts";
import { minutesAfter } from "./calendar.ts";
import { instrumentsOn } from "./instrument-sets.ts";
import { levelAt } from "./levels.ts";
import { busOf } from "./load-units.ts";
import { drawPicture, PICTURES, type Picture, picturesOf } from "./pictures.ts";
import {
  type Album,
  find,
  leadOf,
  type PlacedSite,
  type PlacedUnit,
  type Scene,
  sessionOf,
} from "./scene.ts";
import { sequence } from "./sequence.ts";
import type { DemoJob, Work } from "./tables/jobs.ts";
import { CREWS, type CrewKey } from "./tables/people.ts";
import { usualAnswers } from "./usual-answers.ts";

export async function drawAlbum(): Promise<Album> {
  const crews = Object.keys(CREWS) as CrewKey[];
  const entries = crews.flatMap((crew, shade) =>
    PICTURES.map(
      async (name): Promise<[string, Picture]> => [
        `${crew} ${name}`,
        await drawPicture(name, shade),
      ],
    ),
  );
  return new Map(await Promise.all(entries));
}

export interface Shift {
  jobId: string;
  site: PlacedSite;
  units: readonly PlacedUnit[];
  day: Temporal.PlainDate;
  startsAt: Date;
}

/** Submits the day's answers; returns when the last of them was taken. */
export async function workOnJob(scene: Scene, job: DemoJob, shift: Shift): Promise<Date> {
  const { firm } = scene;
  const { jobId } = shift;
  const session = sessionOf(firm, leadOf(firm, job.crew));
  const answers = usualAnswers(await answeringFor(scene, job, shift));
  const doneAt = new Date(answers.at(-1)?.takenAt ?? shift.startsAt);
  const receivedAt = minutesAfter(doneAt, 2);
  const wanted = new Set(answers.flatMap(({ photos = [] }) => photos));
  for (const { sha256, bytes } of scene.album.values()) {
    if (!wanted.has(sha256)) continue;
    await receivePhoto(firm.db, firm, session, { jobId, sha256, bytes }, receivedAt);
  }
  await submitAnswers(firm.db, session, jobId, answers, receivedAt);
  return doneAt;
}

async function answeringFor(scene: Scene, job: DemoJob, shift: Shift): Promise<Answering> {
  const { firm, catalogue, album } = scene;
  const { jobId, site, day, startsAt } = shift;
  const { plan, context } = await readPlanAndContext(scene, jobId, startsAt);
  const byClass = instrumentsOn(day, job.crew, firm.today);
  return {
    plan,
    context,
    work: job.work as Work,
    startsAt,
    customerName: site.customer,
    installerName: leadOf(firm, job.crew).name,
    choices: {
      inverter_bus: busOf(site.setup) === "bus-b" ? "Bus B" : "Bus A",
      earthing: site.supply,
    },
    levelOf: (unit, itemId) => {
      const placed = shift.units.find(({ id }) => id === unit?.id);
      if (!placed) throw new Error(`${job.key} reads the level of a unit that is not on it`);
      return levelAt(placed.model, itemId, day, firm.today);
    },
    instrumentId: (name) => find(catalogue.instrumentIds, byClass.get(name) ?? name),
    picturesFor: (itemId, howMany) =>
      picturesOf(itemId)
        .slice(0, howMany)
        .map((name) => find(album, `${job.crew} ${name}`).sha256),
    next: sequence(jobSeed(job)),
  };
}

async function readPlanAndContext({ firm }: Scene, jobId: string, now: Date) {
  return inFirm(firm.db, firm.firmId, async (tx) => {
    const query = transactionQuery(tx);
    const record = await readJobRecord(query, firm.firmId, jobId, { lock: false });
    if (!record) throw new Error(`a job just opened is not there: ${jobId}`);
    const plan = await compiledPlan(query, firm.firmId, record.job.planVersionId);
    return { plan, context: toContext(record, now) };
  });
}

const jobSeed = ({ key }: DemoJob): number =>
  [...key].reduce((sum, character) => sum * 31 + (character.codePointAt(0) ?? 0), 7) % 2 ** 31;
