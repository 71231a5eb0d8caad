import type { FirmTransaction } from "../../db/scope.ts";
import { whatToTell } from "../../domain/calendar/telling.ts";
import { readLetterMark } from "../firms/letter-mark.ts";
import { queueMail } from "../mail/store.ts";
import {
  lastTold,
  noteTold,
  settleTelling,
  standOf,
  type ToldVisit,
  takeDueVisit,
  withdrawUnsent,
} from "./telling-store.ts";
import { visitMail, type Writer } from "./visit-mail.ts";

/**
 * Tells one customer what is due about a visit, in this transaction: "written" where a mail lies in
 * the outbox now, "silent" where there was nothing to write; undefined when nothing is due.
 */
export async function tellNext(
  tx: FirmTransaction,
  writer: Writer,
): Promise<"written" | "silent" | undefined> {
  const visit = await takeDueVisit(tx, writer.now);
  if (!visit) return undefined;
  const outcome = await tell(tx, visit, writer);
  await settleTelling(tx, visit.id);
  return outcome;
}

async function tell(
  tx: FirmTransaction,
  visit: ToldVisit,
  writer: Writer,
): Promise<"written" | "silent"> {
  const { now, settings } = writer;
  const stand = standOf(visit);
  if (whatToTell(stand, await lastTold(tx, visit.id)) === undefined) return "silent";
  await withdrawUnsent(tx, visit.id, now);
  // A mail that never left told nothing, so the customer may know less than it seemed.
  const before = await lastTold(tx, visit.id);
  const kind = whatToTell(stand, before);
  if (kind === undefined) return "silent";
  if (!settings[kind]) {
    await noteTold(tx, visit, { at: now });
    return "silent";
  }
  const letter = { kind, visit, before, mark: await readLetterMark(tx) };
  const { id: mailId } = await queueMail(tx, visitMail(letter, writer), now);
  await noteTold(tx, visit, { mailId, at: now });
  return "written";
}
