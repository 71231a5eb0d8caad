import type { FirmTransaction } from "../../db/scope.ts";
import { type FieldError, Problem } from "../../errors.ts";
import { requireQualified } from "../qualifications/require-qualified.ts";
import { rebookCrew } from "../visits/bookings-store.ts";
import { worksToCome } from "../visits/store.ts";
import { activeInstallers, findCrew, replaceMembers } from "./store.ts";

/** Makes these people the crew. Whoever cannot be sent to a site does not belong to one. */
export async function putMembers(
  tx: FirmTransaction,
  crewId: string,
  personIds: string[],
  now: Date,
): Promise<void> {
  const able = await activeInstallers(tx, personIds);
  const errors = personIds.flatMap((id, index): FieldError[] =>
    able.includes(id)
      ? []
      : [
          {
            pointer: `/body/personIds/${index}`,
            detail: "is not an active installer of your firm",
          },
        ],
  );
  if (errors.length > 0) {
    const detail =
      "A crew is made of active installers. Leave the others out, or edit their roles.";
    throw new Problem("invalid-input", detail, { errors });
  }
  await replaceMembers(tx, crewId, personIds);
  const crew = await findCrew(tx, crewId);
  const people = crew?.members.map(({ person }) => person) ?? [];
  const works = people.length > 0 ? await worksToCome(tx, crewId, now) : [];
  await requireQualified(tx, { name: crew?.name ?? "", people }, works);
  await rebookCrew(tx, crewId, now);
}
