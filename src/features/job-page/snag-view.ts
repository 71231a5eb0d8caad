import type { FirmTransaction } from "../../db/scope.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { asKept } from "../../web/as-kept.ts";
import { type FieldProblems, type FormBody, listOf } from "../../web/form.ts";
import type { Role } from "../../web/roles.ts";
import { listCrews } from "../crews/store.ts";
import { JOB_KINDS } from "../jobs/schemas.ts";
import { bookableInstruments, publishedPlans } from "../new-job/store.ts";
import { findSite } from "../sites/store.ts";
import { readSnag } from "../snags/keep-snag.ts";
import { photosForSnag } from "./snag-store.ts";

const CHOICES_MOST = 200;
const PHOTOS_MOST = 60;

export interface FailedSnagForm {
  form: "mending" | "follow-up";
  typed: FormBody;
  problems: FieldProblems;
}

const AT_FIRST: FormBody = { kind: "inspection", from: "09:00", to: "10:00" };

export async function readSnagPage(tx: FirmTransaction, id: string) {
  const snag = await readSnag(tx, id);
  const jobIds = [snag.jobId, ...(snag.followUpJobId ? [snag.followUpJobId] : [])];
  return {
    snag,
    timeZone: (await findSite(tx, snag.job.siteId))?.timeZone ?? "UTC",
    photos: await photosForSnag(tx, jobIds, PHOTOS_MOST),
    plans: await publishedPlans(tx, CHOICES_MOST),
    crews: await listCrews(tx, { active: true, most: CHOICES_MOST }),
    instruments: await bookableInstruments(tx, CHOICES_MOST),
  };
}

export function snagView(
  data: Awaited<ReturnType<typeof readSnagPage>>,
  failed: FailedSnagForm | undefined,
  roles: readonly Role[],
  language: ShownLanguage,
) {
  const { snag, timeZone } = data;
  const at = (time: Date | null | undefined) => time && dayAndTime(language, time, timeZone);
  const typed = failed?.typed ?? AT_FIRST;
  const isTicked = (field: string, value: string) => listOf(typed[field]).includes(value);
  return {
    snag: {
      ...snag,
      title: asKept(language, snag.title),
      mendedNote: asKept(language, snag.mendedNote),
      isOpen: snag.state === "open",
      raised: at(snag.raisedAt),
      mended: at(snag.mendedAt),
      visit: snag.followUpVisit?.state === "booked" ? at(snag.followUpVisit.startsAt) : undefined,
    },
    photos: data.photos.map((photo) => ({
      ...photo,
      caption: `${photo.person.name} · ${at(photo.receivedAt)}`,
      ticked: isTicked("photos", photo.sha256),
    })),
    ...choicesOf(data, isTicked, language),
    needsJob: snag.job.state !== "open" && snag.followUpJob?.state !== "open",
    mayMend: roles.some((role) => role !== "auditor"),
    mayFollowUp: roles.some((role) => ["owner", "office", "manager"].includes(role)),
    failed: failed?.form,
    problems: failed?.problems,
    typed,
  };
}

function choicesOf(
  { plans, crews, instruments }: Awaited<ReturnType<typeof readSnagPage>>,
  isTicked: (field: string, value: string) => boolean,
  language: ShownLanguage,
) {
  return {
    plans: plans.map((plan) => ({
      value: plan.id,
      text: say(language, "job.planChoice", { ...plan }),
    })),
    kinds: JOB_KINDS.map((value) => ({ value, text: say(language, `job.kind.${value}`) })),
    crews: crews.map((crew) => ({ value: crew.id, text: crew.name })),
    instruments: instruments.map((one) => ({ ...one, ticked: isTicked("instrumentIds", one.id) })),
  };
}
