// What the parts behind the views may ask of the page, so that they need not know the whole of it.
import type { Keeper, KeptOp, KeptPhoto, Profile } from "../contract.ts";
import type { JobState } from "../job/job-state.ts";
import type { Route } from "./route.ts";

export interface PageSide {
  readonly parts: { keeper: Keeper };
  readonly profile: Profile;
  readonly route: Route;
  readonly photos: readonly KeptPhoto[];
  job(jobId: string): JobState | undefined;
  /** A kept operation at once, before the store is read again. */
  add(kept: KeptOp): void;
  /** Reads everything anew from the store. */
  refresh(): Promise<void>;
  redraw(): void;
  go(route: Route): void;
  say(sentence: string): void;
  tell(sentence: string, tone: "bad" | "good"): void;
  focus(selector: string): void;
  focusHeading(): void;
}
