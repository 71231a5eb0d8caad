// Requirement: an inspection and test plan is one document that a person can read, send and keep:
// stages in order, items in order, nothing outside it decides what is asked (blueprint "plan/1").
import { z } from "zod";
import { PlanKit } from "../kit/line.ts";
import { DECISION_RULES, Item } from "./item.ts";

export const ITEMS_MOST = 300;
const STAGES_MOST = 40;
const ATTRIBUTES_MOST = 100;

export const Stage = z.strictObject({
  id: z
    .string()
    .regex(/^[a-z][a-z0-9_]{0,47}$/)
    .describe("name of the stage"),
  title: z.string().trim().min(1).max(160).describe("what it is called"),
  items: z.array(Item).min(1).max(ITEMS_MOST).describe("what is asked in it, in order"),
});

export const ATTRIBUTE_TYPES = ["number", "text", "flag"] as const;

const Attributes = z
  .record(z.string().regex(/^[a-zA-Z][a-zA-Z0-9_]{0,39}$/), z.enum(ATTRIBUTE_TYPES))
  .refine(
    (attributes) => Object.keys(attributes).length <= ATTRIBUTES_MOST,
    `A plan reads at most ${ATTRIBUTES_MOST} attributes`,
  );

export const Plan = z.strictObject({
  schema: z.literal("plan/1").describe("the form of this document"),
  title: z.string().trim().min(1).max(200).describe("what the plan is called"),
  decisionRule: z
    .enum(DECISION_RULES)
    .describe("how uncertainty counts unless an item says otherwise"),
  attributes: Attributes.default({}).describe(
    "attributes of the product model that expressions read as model.<name>",
  ),
  kit: PlanKit.optional().describe("what the work needs whatever the model, for the pick list"),
  stages: z.array(Stage).min(1).max(STAGES_MOST).describe("the stages of the work, in order"),
});
export type Plan = z.infer<typeof Plan>;
export type Stage = z.infer<typeof Stage>;

/** JSON Schema (draft 2020-12) of the plan/1 document, as published for people who write plans. */
export const planJsonSchema = (): object => z.toJSONSchema(Plan, { io: "input" });
