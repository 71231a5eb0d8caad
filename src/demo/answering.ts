// What the answers of a day rest on, besides the plan.
import type { z } from "zod";
import type { CompiledPlan } from "../domain/plan/compile.ts";
import type { JobContext, UnitFacts } from "../domain/plan/context.ts";
import type { AnswerValue } from "../features/answers/schemas.ts";
import type { Work } from "./tables/jobs.ts";

export interface Answering {
  plan: CompiledPlan;
  context: JobContext;
  work: Work;
  startsAt: Date;
  /** Firmware level that the unit shows at this item. */
  levelOf(unit: UnitFacts | undefined, itemId: string): string;
  /** Names as they are signed. */
  customerName: string;
  installerName: string;
  choices: Readonly<Record<string, string>>;
  /** Id of the instrument that is used for a class, or that has a reference. */
  instrumentId(nameOrClass: string): string;
  /** SHA-256 of so many pictures for the item. */
  picturesFor(itemId: string, howMany: number): string[];
  next(): number;
}

export type Value = z.infer<typeof AnswerValue>;
/** What an expression may read, by root. */
export type Names = Record<string, unknown>;
