import { z } from "zod";
import { shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const CREW_MEMBERS_MOST = 20;

const name = shortText(80).meta({ examples: ["North crew"] });
const personIds = z
  .array(z.guid())
  .max(CREW_MEMBERS_MOST)
  .refine((list) => new Set(list).size === list.length, "must not name a person twice")
  .describe("active installers; whoever is left out leaves the crew")
  .meta({ examples: [["019ac4a1-1111-7cc1-9d6a-0c8f6f0b7a11"]] });

export const NewCrew = z.strictObject({ name, personIds: personIds.default([]) });
export const CrewEdit = z
  .strictObject({ name, active: z.boolean().describe("false when the crew is disbanded") })
  .partial();
export const CrewMembers = z.strictObject({ personIds });

export const Crew = z
  .object({
    id: z.guid(),
    name: z.string(),
    active: z.boolean(),
    members: z.array(
      z.object({
        personId: z.guid(),
        name: z.string(),
        active: z.boolean().describe("whether the person still signs in"),
      }),
    ),
    createdAt: z.iso.datetime({ offset: true }),
    version: z.number().int(),
  })
  .meta({ id: "Crew" });

export const CrewPage = pageOf(Crew);
export const CrewQuery = z.strictObject({
  ...PAGE_QUERY,
  active: z.stringbool().default(true).describe("false lists disbanded crews instead"),
});
