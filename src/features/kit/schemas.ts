import { z } from "zod";
import { COUNTED_IN } from "../../domain/kit/line.ts";

export const LINE_KEY_MOST = 200;

export const NewKitTick = z.strictObject({
  lineKey: z
    .string()
    .min(1)
    .max(LINE_KEY_MOST)
    .describe("key of a line of the job's kit")
    .meta({ examples: ["tool:torque-wrench"] }),
});

export const KitTick = z
  .object({
    id: z.guid(),
    lineKey: z.string(),
    personId: z.guid(),
    personName: z.string(),
    tickedAt: z.iso.datetime({ offset: true }),
  })
  .meta({ id: "KitTick" });

const category = z.enum([
  ...(["unit", "anchor", "cable", "consumable", "tool", "protective-equipment"] as const),
]);

const KitLine = z.object({
  key: z.string(),
  category,
  name: z.string(),
  toolClass: z.string().optional().describe("class of instrument, of tools that the plan names"),
  amount: z.number(),
  countedIn: z.enum(COUNTED_IN),
  perPerson: z.boolean().describe("the amount is for each of the crew"),
  stockCode: z.string().optional(),
  notes: z
    .array(z.looseObject({ code: z.string() }))
    .describe("why it is there or what to mind, as a code with its values"),
  sources: z.array(z.string()),
});

export const JobKit = z
  .object({
    jobId: z.guid(),
    items: z.array(KitLine.extend({ ticks: z.array(KitTick) })).describe("what is packed"),
    inTheBox: z.array(KitLine).describe("what the makers supply: looked for at goods-in"),
    gaps: z.array(z.looseObject({ code: z.string() })).describe("what the list cannot know"),
    packed: z.number().int().describe("lines that somebody ticked"),
  })
  .meta({ id: "JobKit" });
