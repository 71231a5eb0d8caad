import { z } from "zod";
import { plainDate } from "../../web/fields.ts";
import type { FormBody } from "../../web/form.ts";

const isPlannable = (text: string): boolean => /^(20|21)\d\d-/.test(text);

/** What the diary's page shows: any day of the week, and what is at hand in it. */
export const DiaryPageQuery = z.object({
  day: plainDate().refine(isPlannable).optional().catch(undefined),
  by: z.enum(["crew", "person"]).optional().catch(undefined),
  job: z.guid().optional().describe("to be placed"),
  visit: z.guid().optional().describe("looked at"),
  cursor: z.string().max(200).optional(),
  placed: z.guid().optional(),
  calledOff: z.guid().optional(),
  moved: z.guid().optional(),
  was: z.string().max(80).optional().describe("its hours before it was moved"),
  wasCrew: z.guid().optional(),
  wasTaken: z.string().max(800).optional().describe("instruments of a visit that was called off"),
});
export type DiaryPageQuery = z.infer<typeof DiaryPageQuery>;

/** The week that a form was sent from, so that the answer shows it again. */
export function placeOf(typed: FormBody): DiaryPageQuery {
  const { by, backTo } = typed;
  return DiaryPageQuery.parse({ by, day: backTo });
}

export function addressOf(query: Readonly<Record<string, string | undefined>>): string {
  const given = Object.entries(query).filter(
    (entry): entry is [string, string] => entry[1] !== undefined && entry[1] !== "",
  );
  return given.length === 0 ? "/diary" : `/diary?${new URLSearchParams(given)}`;
}
