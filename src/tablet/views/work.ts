// What is at hand of the one item that is worked on.
import type { Verdict } from "../../domain/acceptance/verdict.ts";
import type { DraftKey, KeptOp } from "../contract.ts";
import type { Draft } from "../job/draft.ts";

export interface Work extends DraftKey {
  draft: Draft;
  instrumentId: string | undefined;
  /** The instruments are shown to choose from. */
  isChoosing: boolean;
  isKeeping: boolean;
  problem: string | undefined;
  /** What was kept last in this sitting; the verdict stays until one goes on. */
  kept: { op: KeptOp; verdict: Verdict } | undefined;
}

export const newWork = (key: DraftKey): Work => ({
  ...{ ...key, draft: {}, isChoosing: false, isKeeping: false },
  ...{ instrumentId: undefined, problem: undefined, kept: undefined },
});

export const draftKey = ({ jobId, itemId, subject }: DraftKey): DraftKey => ({
  jobId,
  itemId,
  subject,
});
