import { z } from "zod";
import { FIRMWARE_SEVERITIES } from "../../domain/firmware/deadline.ts";
import { plainDate } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const ROUND_DAYS_MOST = 20;
export const ROUND_SITES_MOST = 200;
export const ROUND_CREWS_MOST = 10;

const clock = () => z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, "must be a time such as 08:00");
const inFives = (least: number, most: number) =>
  z.coerce.number().int().min(least).max(most).multipleOf(5, "must be in steps of 5 minutes");

export const NewUpdateRound = z.strictObject({
  planId: z.guid().describe("plan of the update visits; its latest published version counts"),
  crewIds: z
    .array(z.guid())
    .min(1)
    .max(ROUND_CREWS_MOST)
    .refine((ids) => new Set(ids).size === ids.length, "must not name a crew twice"),
  fromDay: plainDate().meta({ examples: ["2026-11-30"] }),
  days: z.coerce
    .number()
    .int()
    .min(1)
    .max(ROUND_DAYS_MOST)
    .describe("working days to plan for, from the first day on"),
  startsAt: clock()
    .optional()
    .describe("nobody leaves earlier, on the firm's clock, whatever the working hours"),
  endsAt: clock().optional().describe("everybody is home by then"),
  siteMin: inFives(10, 240).default(20).describe("minutes at a site besides its units"),
  unitMin: inFives(5, 240).default(20).describe("minutes for each unit"),
  sitesMost: z.coerce.number().int().min(1).max(ROUND_SITES_MOST).default(60),
  severity: z.enum(FIRMWARE_SEVERITIES).optional(),
  modelId: z.guid().optional(),
  region: z.string().max(40).optional(),
  replacesId: z
    .guid()
    .optional()
    .describe("an accepted proposal: its visits to come are cancelled when this one is accepted"),
});
export type NewUpdateRound = z.infer<typeof NewUpdateRound>;

const time = () => z.iso.datetime({ offset: true });

const Stop = z.object({
  siteId: z.guid(),
  reference: z.string(),
  place: z.string(),
  unitIds: z.array(z.guid()),
  startsAt: time(),
  endsAt: time(),
  driveMin: z.number(),
});

export const Proposal = z.object({
  sentence: z.string(),
  timeZone: z.string(),
  driveMin: z.number(),
  distanceKm: z.number(),
  base: z
    .object({ latitude: z.number(), longitude: z.number(), isEstimate: z.boolean() })
    .describe("where the crews start; the middle of the sites where the firm has named no place"),
  rounds: z.array(
    z.object({
      crewId: z.guid(),
      crew: z.string(),
      day: z.string(),
      leavesAt: time(),
      returnsAt: time(),
      driveMin: z.number(),
      stops: z.array(Stop),
    }),
  ),
  leftOut: z.array(z.object({ siteId: z.guid(), reference: z.string(), sentence: z.string() })),
  notSent: z
    .array(z.object({ crewId: z.guid(), crew: z.string(), day: z.string(), sentence: z.string() }))
    .default([])
    .describe("crews that are not sent on a day, and why"),
  svg: z.string().describe("the rounds drawn"),
});
export type Proposal = z.infer<typeof Proposal>;

export const ROUND_STATES = ["proposed", "accepted", "dropped"] as const;
export type RoundState = (typeof ROUND_STATES)[number];

export const UpdateRound = z
  .object({
    id: z.guid(),
    reference: z.string(),
    state: z.enum(ROUND_STATES),
    request: z.record(z.string(), z.unknown()),
    proposal: Proposal,
    replacesId: z.guid().nullable(),
    visitIds: z.array(z.guid()).describe("once it is accepted"),
    createdAt: time(),
    decidedAt: time().nullable(),
    version: z.number().int(),
  })
  .meta({ id: "UpdateRound" });

export const UpdateRoundPage = pageOf(
  UpdateRound.omit({ request: true, proposal: true, visitIds: true }).extend({
    sentence: z.string(),
  }),
);
export const UpdateRoundQuery = z.strictObject(PAGE_QUERY);
