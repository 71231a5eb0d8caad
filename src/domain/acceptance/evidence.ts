// Requirement: where a plan asks for a photo or a note, the reading alone does not meet the item.
import type { Item } from "../plan/item.ts";
import type { Answer } from "./answer.ts";
import { type Finding, missing } from "./verdict.ts";

/** What the answer should have come with and did not. */
export function evidenceFinding(item: Item, answer: Answer): Finding | undefined {
  const needed = photosNeeded(item);
  if (needed > 0) {
    const named = new Set(answer.photos ?? []).size;
    if (named < needed) {
      return missing(
        "photo-missing",
        `${named} of ${needed} ${needed === 1 ? "photo is" : "photos are"} tied to it.`,
        needed === 1
          ? "Take the photo and answer again with it."
          : "Take the photos and answer again with them.",
      );
    }
  }
  if (item.evidence?.note && !answer.note?.trim()) {
    const sentence = "A note is asked for and there is none.";
    return missing("note-missing", sentence, "Answer again with a note.");
  }
  return undefined;
}

/**
 * Photos that the answer names and that have not come to the server yet: what was done in time
 * stays done in time, but a job is not closed before they are there.
 * @param photosHeld photos that are there; undefined where that is not known, as on the tablet
 */
export function arrivalFinding(
  item: Item,
  answer: Answer,
  photosHeld: ReadonlySet<string> | undefined,
): Finding | undefined {
  if (!photosHeld) return undefined;
  const needed = photosNeeded(item);
  const named = [...new Set(answer.photos ?? [])];
  const waiting = named.filter((sha256) => !photosHeld.has(sha256)).length;
  if (named.length - waiting >= needed) return undefined;
  return missing(
    "photo-not-arrived",
    waiting === 1 ? "1 photo is still to arrive." : `${waiting} photos are still to arrive.`,
    "Let the tablet send its photos where there is signal.",
  );
}

const photosNeeded = (item: Item): number =>
  Math.max(item.evidence?.photos ?? 0, item.kind === "photo" ? item.photos : 0);
