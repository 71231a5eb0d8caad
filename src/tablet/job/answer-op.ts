import type { NewOp } from "../contract.ts";
import { type Draft, draftPhotos, draftValue } from "./draft.ts";
import { instrumentClass } from "./instruments.ts";
import type { ItemState, JobState } from "./job-state.ts";

export interface Taken {
  draft: Draft;
  instrumentId: string | undefined;
  /** RFC 3339 with the offset of the place. */
  takenAt: string;
}

/** The answer as it goes to the store, with the photos that it names. */
export function answerOp(
  { packet }: JobState,
  { compiled, subject }: ItemState,
  { draft, instrumentId, takenAt }: Taken,
): NewOp {
  const { item } = compiled;
  const value = draftValue(item, draft) as never;
  const note = draft.note?.trim();
  return {
    jobId: packet.job.id,
    payload: {
      kind: "answer",
      answer: {
        ...{ itemId: item.id, subject: subject.key, takenAt, value },
        ...(instrumentId && instrumentClass(item) ? { instrumentId } : {}),
        ...(note ? { note } : {}),
      },
    },
    photos: draftPhotos(item, draft).map(({ blob, mediaType }) => ({
      ...{ blob, mediaType, itemId: item.id, subject: subject.key },
    })),
    seen: { jobVersion: packet.job.version, lastOrder: packet.lastOrder },
  };
}
