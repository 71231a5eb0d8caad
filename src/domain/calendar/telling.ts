// Requirement: a customer hears of a visit once when it is booked, once when it is moved for good,
// and once when it is called off; never twice the same, and never of a visit they know nothing of.
// Source: common practice, no source.

/** How a visit stands, or stood when its customer was told of it; instants are RFC 3339 in UTC. */
export interface VisitStand {
  state: "booked" | "cancelled";
  startsAt: string;
  endsAt: string;
}

export type TellingKind = "confirmation" | "change" | "cancellation";

/**
 * What the customer is to be told; undefined where there is nothing to say.
 * @param told what the customer was told last, undefined where nothing
 */
export function whatToTell(now: VisitStand, told: VisitStand | undefined): TellingKind | undefined {
  if (now.state === "cancelled") return told?.state === "booked" ? "cancellation" : undefined;
  if (told === undefined || told.state === "cancelled") return "confirmation";
  return now.startsAt === told.startsAt && now.endsAt === told.endsAt ? undefined : "change";
}
