import { z } from "zod";

const moment = () => z.iso.datetime({ offset: true });

export const CalendarAddress = z
  .object({
    exists: z.boolean(),
    createdAt: moment().nullable(),
    fetchedAt: moment().nullable().describe("when it was last asked for, to the hour"),
  })
  .meta({ id: "CalendarAddress" });

export const NewCalendarAddress = z
  .object({
    url: z.url().describe("shown this once; who has it reads the person's visits"),
    createdAt: moment(),
  })
  .meta({ id: "NewCalendarAddress" });
