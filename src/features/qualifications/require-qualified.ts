// A crew that lacks on the day what its work asks for is not booked: whoever books is told who,
// which qualification, and when it ended.
import type { FirmTransaction } from "../../db/scope.ts";
import {
  type Crewman,
  type Lack,
  lacking,
  lackSentence,
} from "../../domain/scheduling/qualified.ts";
import { Problem } from "../../errors.ts";
import { requirementsByKind } from "./requirement-store.ts";
import { heldBy } from "./store.ts";

export interface WorkOnDay {
  jobKind: string;
  /** By the site's calendar. */
  day: string;
}

/** Refuses a crew for the first of these works that it is not qualified for. */
export async function requireQualified(
  tx: FirmTransaction,
  crew: { name: string; people: readonly Crewman[] },
  works: readonly WorkOnDay[],
): Promise<void> {
  const byKind = await requirementsByKind(tx);
  if (!works.some(({ jobKind }) => byKind.has(jobKind))) return;
  const held = await heldBy(
    tx,
    crew.people.map(({ id }) => id),
  );
  for (const { jobKind, day } of works) {
    const lacks = lacking(crew.people, byKind.get(jobKind) ?? [], held, day);
    if (lacks[0]) throw notQualified([lacks[0], ...lacks.slice(1)], crew.name, day);
  }
}

function notQualified(lacks: [Lack, ...Lack[]], crewName: string, day: string): Problem {
  const more = lacks.length > 1 ? ` And ${lacks.length - 1} more of ${crewName}.` : "";
  return new Problem(
    "not-qualified",
    `${lackSentence(lacks[0], crewName, day)}${more} Send another crew, choose another day, or ` +
      "record the qualification that is held.",
    { lacks: lacks.map((lack) => ({ day, ...lack })) },
  );
}
