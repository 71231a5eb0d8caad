import type { FirmTransaction } from "../../db/scope.ts";
import { spanOfEvent } from "../../domain/acceptance/instrument-doubt.ts";
import { isTorqueTool } from "../../domain/acceptance/torque-tool.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import type { SignedIn } from "../../web/session.ts";
import { castDoubt } from "./cast-doubt.ts";
import type { NewInstrumentEvent } from "./event-schemas.ts";
import { addEvent, type EventRow } from "./event-store.ts";
import { factsOf } from "./standing.ts";
import { findInstrument } from "./store.ts";

/** Records what happened; readings that it casts doubt on are told in their jobs' ledgers. */
export async function recordEvent(
  tx: FirmTransaction,
  instrumentId: string,
  fields: NewInstrumentEvent,
  session: SignedIn,
  now: Date,
): Promise<EventRow> {
  requireRole(fields, session);
  const before = await findInstrument(tx, instrumentId);
  if (!before) throw notFound("instrument");
  if (fields.kind === "used" && !isTorqueTool(before.instrumentClass)) {
    throw invalid("/body/kind", `${before.reference} is no torque tool; its uses are not counted.`);
  }
  if (Date.parse(fields.at) > now.getTime()) throw invalid("/body/at", "lies in the future");
  if (fields.at < "2000") throw invalid("/body/at", "must lie after the year 2000");
  const event = await addEvent(tx, instrumentId, fields, session.personId);
  const after = await findInstrument(tx, instrumentId);
  if (!after) throw new Error("an instrument vanished while its event was recorded");
  const place = after.events.toReversed().findIndex(({ id }) => id === event.id);
  const span = spanOfEvent(factsOf(after), place);
  if (span) await castDoubt(tx, instrumentId, span, { personId: session.personId, now });
  return event;
}

/** Whoever brings an instrument back into use is not the one who is held up by it. */
const MAY_PASS_RECHECK = ["owner", "office", "manager"] as const;

function requireRole({ kind }: NewInstrumentEvent, { roles }: SignedIn): void {
  if (kind !== "recheck-passed" || MAY_PASS_RECHECK.some((role) => roles.includes(role))) return;
  throw new Problem(
    "not-allowed",
    `A passed recheck takes the role ${MAY_PASS_RECHECK.join(" or ")}; yours is ${roles.join()}.`,
    { roles: MAY_PASS_RECHECK },
  );
}
