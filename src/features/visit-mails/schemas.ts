import { z } from "zod";

const moment = () => z.iso.datetime({ offset: true });

export const VisitTelling = z
  .object({
    visitId: z.guid(),
    jobReference: z.string(),
    customer: z.object({ id: z.guid(), name: z.string() }),
    state: z.enum(["booked", "cancelled"]).describe("of the visit"),
    startsAt: moment(),
    timeZone: z.string(),
    dueAt: moment().describe("when the mail is written, unless the visit changes again"),
    blockedBy: z
      .enum(["no-address", "failing-address"])
      .nullable()
      .describe("what keeps it from being written"),
  })
  .meta({ id: "VisitTelling" });

export const VisitTellings = z.object({ items: z.array(VisitTelling) });
