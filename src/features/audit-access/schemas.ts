import { z } from "zod";
import { plainDate } from "../../web/fields.ts";

export const DAYS_USUAL = 30;
export const DAYS_MOST = 366;
export const SITES_MOST = 200;
export const MODELS_MOST = 100;

const Period = z
  .strictObject({ from: plainDate(), to: plainDate() })
  .refine(({ from, to }) => from <= to, { path: ["to"], error: "is before the first" })
  .describe("jobs closed, or with a visit, on these days by the firm's calendar");

const ids = (most: number) =>
  z
    .array(z.guid())
    .min(1)
    .max(most)
    .refine((list) => new Set(list).size === list.length, "must not name anything twice");

export const Scope = z
  .strictObject({
    period: Period.optional(),
    modelIds: ids(MODELS_MOST).optional().describe("jobs and units of these product models"),
    siteIds: ids(SITES_MOST).optional(),
  })
  .describe("Each narrows the others; with none of them it is the whole firm.");
export type Scope = z.infer<typeof Scope>;

export const NewAccess = z
  .strictObject({
    outside: z.boolean().describe("comes from outside the firm: then `until` is needed"),
    from: plainDate().optional().describe("first day; today where none is given"),
    until: plainDate().optional().describe(`last day, at most ${DAYS_MOST} days after the first`),
    scope: Scope.default({}),
  })
  .meta({ examples: [{ outside: true, until: "2026-12-24", scope: {} }] });
export type NewAccess = z.output<typeof NewAccess>;

export const AuditAccess = z
  .object({
    id: z.guid(),
    personId: z.guid(),
    outside: z.boolean(),
    from: z.string(),
    until: z.string().nullable(),
    scope: z.object({
      period: z.object({ from: z.string(), to: z.string() }).nullable(),
      modelIds: z.array(z.guid()),
      siteIds: z.array(z.guid()),
    }),
    givenByName: z.string(),
    givenAt: z.string(),
    withdrawnByName: z.string().nullable(),
    withdrawnAt: z.string().nullable(),
  })
  .meta({ id: "AuditAccess" });

/** All that was given to one person. */
export const AuditAccessList = z.object({ items: z.array(AuditAccess), next: z.null() });
