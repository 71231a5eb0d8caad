import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { dayBounds } from "../../domain/dates/zone-time.ts";
import { plainDate, typedText } from "../../web/fields.ts";
import { AbsenceQuery } from "../absences/schemas.ts";
import { CrewQuery } from "../crews/schemas.ts";
import { readFirm } from "../firms/store.ts";
import { PlanQuery } from "../plans/schemas.ts";
import { ProductModelQuery } from "../product-models/schemas.ts";
import { RecurringInspectionQuery } from "../recurring-inspections/schemas.ts";
import { ROUND_STATES } from "../rounds/schemas.ts";
import { ConsumableQuery } from "../stock/consumable-schemas.ts";
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
import type { ExportList } from "./list.ts";
import { ofTable, PAGING, SORTED, sqlPages } from "./lists.ts";

const EITHER = z.stringbool().optional().describe("both where it is left out");

export const productModels = ofTable(MODELS, {
  ...{ name: "product-models", operationId: "exportProductModels" },
  summary: "Take the product models away",
  query: ProductModelQuery.omit(PAGING).extend(SORTED),
});

export const plans = ofTable(PLANS, {
  ...{ name: "plans", operationId: "exportPlans", summary: "Take the list of plans away" },
  query: PlanQuery.omit(PAGING).extend(SORTED),
});

export const crews = ofTable(CREWS, {
  ...{ name: "crews", operationId: "exportCrews", summary: "Take the crews away" },
  query: CrewQuery.omit(PAGING).extend({
    ...{ ...SORTED, active: EITHER },
    name: typedText(80).optional().describe("part of the name"),
  }),
});

export const consumables = ofTable(CONSUMABLES, {
  ...{ name: "consumables", operationId: "exportConsumables" },
  summary: "Take the consumables away",
  query: ConsumableQuery.omit(PAGING).extend({ ...SORTED, archived: EITHER }),
});

export const qualifications = ofTable(QUALIFICATIONS, {
  ...{ name: "qualifications", operationId: "exportQualifications" },
  summary: "Take away who holds what",
  query: z
    .strictObject({ personId: z.guid(), kindId: z.guid(), endsBefore: plainDate() })
    .partial(),
});

const AbsenceFilter = AbsenceQuery.omit(PAGING);

export const absences: ExportList<z.output<typeof AbsenceFilter>> = {
  ...{ name: "absences", operationId: "exportAbsences", summary: "Take the absences away" },
  query: AbsenceFilter,
  columns: Object.keys(ABSENCES.columns),
  async *pages(ask, { from, to, ...filter }) {
    const { timeZone } = await inFirm(ask.db, ask.firmId, readFirm);
    yield* sqlPages(ask, ABSENCES, {
      ...filter,
      endsAfter: from && dayBounds(from, timeZone).start,
      startsBefore: to && dayBounds(to, timeZone).end,
    });
  },
};

export const recurringInspections = ofTable(INSPECTIONS, {
  ...{ name: "recurring-inspections", operationId: "exportRecurringInspections" },
  summary: "Take the recurring inspections away",
  query: RecurringInspectionQuery.omit(PAGING).extend({ ...SORTED, ended: EITHER }),
});

export const updateRounds = ofTable(UPDATE_ROUNDS, {
  ...{ name: "update-rounds", operationId: "exportUpdateRounds" },
  summary: "Take the proposals of update rounds away",
  query: z.strictObject({ ...SORTED, state: z.enum(ROUND_STATES).optional() }),
});
