// What stands in the way of a visit, and what is worth knowing of one, as values to act on.
import { z } from "zod";

const moment = () => z.iso.datetime({ offset: true });
const stretch = { startsAt: moment(), endsAt: moment() };
const day = { day: z.iso.date() };
const instrument = { instrumentId: z.guid(), reference: z.string() };

const lack = {
  ...day,
  kindId: z.guid(),
  kindName: z.string(),
  askedOf: z.enum(["everyone", "someone"]),
  personId: z.guid().nullable().describe("null: nobody in the crew ever held it"),
  personName: z.string().nullable(),
  endedOn: z.iso.date().nullable().describe("the last day on which it counted"),
  startsOn: z.iso.date().nullable().describe("the first day on which it will"),
};

const Holiday = z.object({ what: z.literal("holiday"), ...day });
const DayOff = z.object({ what: z.literal("day-off"), ...day });
const NotQualified = z.object({ what: z.literal("not-qualified"), ...lack });
const OutOfCalibration = z.object({
  what: z.literal("out-of-calibration"),
  ...instrument,
  endedOn: z.iso.date().nullable().describe("null: it was never calibrated, or failed"),
});
const Retired = z.object({ what: z.literal("retired"), ...instrument, endedOn: z.iso.date() });

export const DiaryCaution = z
  .discriminatedUnion("what", [
    Holiday,
    DayOff,
    NotQualified,
    OutOfCalibration,
    Retired,
    z.object({ what: z.literal("outside-hours"), ...day, ...stretch }),
    z.object({
      what: z.literal("qualification-ends"),
      kindId: z.guid(),
      kindName: z.string(),
      personId: z.guid(),
      personName: z.string(),
      endsOn: z.iso.date(),
      daysLeft: z.number().int().describe("from the day of the visit"),
    }),
    z.object({
      what: z.literal("tight-drive"),
      visitId: z.guid().describe("the visit before or after"),
      jobReference: z.string(),
      driveMin: z.number(),
      roomMin: z.number(),
    }),
  ])
  .meta({ id: "DiaryCaution" });

export const DiaryObstacle = z
  .discriminatedUnion("what", [
    Holiday,
    DayOff,
    NotQualified,
    OutOfCalibration,
    Retired,
    z.object({
      what: z.literal("away"),
      personId: z.guid(),
      name: z.string(),
      absenceId: z.guid(),
      ...stretch,
    }),
    z.object({
      what: z.literal("booked"),
      visitId: z.guid(),
      jobReference: z.string(),
      ...stretch,
    }),
    z.object({
      what: z.literal("instrument-taken"),
      ...instrument,
      visitId: z.guid(),
      jobReference: z.string(),
      ...stretch,
    }),
    z
      .object({ what: z.literal("too-short"), minutes: z.number(), ...stretch })
      .describe("the work with its drives does not fit into what is left of the hours"),
  ])
  .meta({ id: "DiaryObstacle" });
