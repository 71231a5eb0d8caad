import type { z } from "zod";
import type { Sample } from "../../domain/plan/sample.ts";
import type { PlanSample } from "./trial-schemas.ts";

type Sampled = z.infer<typeof PlanSample>["context"];
type Sent = z.infer<typeof PlanSample>["answers"];

/** As the trial takes it: what the server works out itself is left out. */
export function shownSample({ context, answers, ...rest }: Sample): z.infer<typeof PlanSample> {
  const { site, units, instruments, now } = context;
  return {
    ...rest,
    context: {
      ...{ site, now, concessions: [] },
      units: units.map(({ position: _position, serialRule: _serialRule, ...unit }) => unit),
      instruments: instruments as unknown as Sampled["instruments"],
    },
    answers: answers.map(({ order: _order, personId: _personId, ...answer }) => answer) as Sent,
  };
}
