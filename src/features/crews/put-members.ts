import type { FirmTransaction } from "../../db/scope.ts";
import { type FieldError, Problem } from "../../errors.ts";
import { rebookCrew } from "../visits/bookings-store.ts";
import { activeInstallers, replaceMembers } from "./store.ts";

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
  await rebookCrew(tx, crewId, now);
}
