import { z } from "zod";
import { plainDate } from "../../web/fields.ts";
import {
  ABSENCES,
  CONSUMABLES,
  CREWS,
  INSPECTIONS,
  MODELS,
  PLANS,
  QUALIFICATIONS,
  UPDATE_ROUNDS,
} from "./firm-tables.ts";
import { ofTable } from "./lists.ts";

const WHOLE = z.strictObject({});

export const productModels = ofTable(MODELS, {
  ...{ name: "product-models", operationId: "exportProductModels", query: WHOLE },
  summary: "Take the product models away",
});

export const plans = ofTable(PLANS, {
  ...{ name: "plans", operationId: "exportPlans", summary: "Take the list of plans away" },
  query: WHOLE,
});

export const crews = ofTable(CREWS, {
  ...{ name: "crews", operationId: "exportCrews", summary: "Take the crews away" },
  query: WHOLE,
});

export const consumables = ofTable(CONSUMABLES, {
  ...{ name: "consumables", operationId: "exportConsumables", query: WHOLE },
  summary: "Take the consumables away",
});

export const qualifications = ofTable(QUALIFICATIONS, {
  ...{ name: "qualifications", operationId: "exportQualifications" },
  summary: "Take away who holds what",
  query: z
    .strictObject({ personId: z.guid(), kindId: z.guid(), endsBefore: plainDate() })
    .partial(),
});

export const absences = ofTable(ABSENCES, {
  ...{ name: "absences", operationId: "exportAbsences", summary: "Take the absences away" },
  query: z.strictObject({ personId: z.guid() }).partial(),
});

export const recurringInspections = ofTable(INSPECTIONS, {
  ...{ name: "recurring-inspections", operationId: "exportRecurringInspections" },
  summary: "Take the recurring inspections away",
  query: z.strictObject({ siteId: z.guid() }).partial(),
});

export const updateRounds = ofTable(UPDATE_ROUNDS, {
  ...{ name: "update-rounds", operationId: "exportUpdateRounds", query: WHOLE },
  summary: "Take the proposals of update rounds away",
});
