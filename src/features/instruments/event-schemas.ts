import { z } from "zod";
import { dateTime, longText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const EVENT_KINDS = [
  "overload",
  "dropped",
  "recheck-passed",
  "recheck-failed",
  "used",
  "note",
] as const;
export type EventKind = (typeof EVENT_KINDS)[number];

export const NewInstrumentEvent = z
  .strictObject({
    kind: z
      .enum(EVENT_KINDS)
      .describe("overload, dropped and recheck-failed take it out of use until a recheck passes"),
    at: dateTime().describe("when it happened, with the offset of the place"),
    cycles: z
      .number()
      .int()
      .min(1)
      .max(100_000)
      .optional()
      .describe("used: cycles of a torque tool done outside jobs"),
    note: longText(2000).optional(),
  })
  .refine(({ kind, cycles }) => (kind === "used") === (cycles !== undefined), {
    path: ["cycles"],
    error: "belongs to the kind used, which needs it",
  })
  .refine(({ kind, note }) => kind !== "note" || note !== undefined, {
    path: ["note"],
    error: "is what the kind note consists of",
  })
  .meta({
    examples: [{ kind: "overload", at: "2026-11-25T09:30:00+00:00", note: "Slipped off a socket" }],
  });
export type NewInstrumentEvent = z.infer<typeof NewInstrumentEvent>;

export const InstrumentEvent = z
  .object({
    id: z.guid(),
    kind: z.enum(EVENT_KINDS),
    at: z.string(),
    cycles: z.number().int().nullable(),
    note: z.string().nullable(),
    personId: z.guid(),
    createdAt: z.iso.datetime({ offset: true }),
  })
  .meta({ id: "InstrumentEvent" });

export const InstrumentEventPage = pageOf(InstrumentEvent);
export const InstrumentEventQuery = z.strictObject({
  ...PAGE_QUERY,
  kind: z.enum(EVENT_KINDS).optional(),
});
