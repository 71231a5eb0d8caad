// What a picture shows, in one line: the item it was taken for, on which unit, by whom and when.
import type { CompiledPlan } from "../../domain/plan/compile.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { JobRecord } from "../job-record/store.ts";
import type { PhotoRow } from "./store.ts";

export interface ShownPhoto {
  sha256: string;
  widthPx: number;
  heightPx: number;
  item: string;
  unit: string | undefined;
  by: string;
  at: string;
  caption: string;
}

/** An answer that names the picture says what it is of; else what it was sent for. */
export function shownPhoto(
  photo: PhotoRow,
  plan: CompiledPlan,
  record: Pick<JobRecord, "job" | "units" | "answers">,
  language: ShownLanguage,
): ShownPhoto {
  const answer = record.answers.findLast(({ photos }) => photos.includes(photo.sha256));
  const itemId = answer?.itemId ?? photo.itemId;
  const subject = answer?.subject ?? photo.subject;
  const title = itemId === null ? undefined : plan.byId.get(itemId)?.item.title;
  const unit = record.units.find(({ id }) => id === subject);
  const taken = answer ? new Date(answer.takenAt) : photo.receivedAt;
  const item = title ?? say(language, "job.photos.noItem");
  const by = photo.person.name;
  const at = dayAndTime(language, taken, record.job.timeZone);
  const unitName = unit && `${unit.modelCode} ${unit.serial}`;
  const caption = [item, unitName, by, at].filter(Boolean).join(" · ");
  const { sha256, widthPx, heightPx } = photo;
  return { sha256, widthPx, heightPx, item, unit: unitName, by, at, caption };
}
