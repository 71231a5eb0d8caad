// What was claimed, read and agreed under warranty.
import { z } from "zod";
import { ClaimQuery } from "../warranty/claim-schemas.ts";
import { equals, moment, type SqlList } from "./list-store.ts";
import { ofTable, PAGING, SORTED } from "./lists.ts";

const CLAIMS: SqlList = {
  alias: "c",
  from: `warranty_claim c JOIN unit u ON u.firm_id = c.firm_id AND u.id = c.unit_id
    JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
    JOIN person p ON p.firm_id = c.firm_id AND p.id = c.created_by_id
    LEFT JOIN job j ON j.firm_id = c.firm_id AND j.id = c.job_id
    LEFT JOIN unit n ON n.firm_id = c.firm_id AND n.id = c.replacement_unit_id`,
  columns: {
    ...{ reference: "c.reference", model: "m.code", serial: "u.serial", state: "c.state" },
    ...{ fault: "c.fault", makerReference: "c.maker_reference", note: "c.note" },
    ...{ job: "j.reference", replacement: "n.serial", openedBy: "p.name" },
    ...{ openedAt: moment("c.created_at"), sentAt: moment("c.sent_at") },
    ...{ answeredAt: moment("c.answered_at"), endedAt: moment("c.ended_at") },
  },
  conditions: {
    state: equals("c.state", "text"),
    unitId: "?::uuid IN (c.unit_id, c.replacement_unit_id)",
  },
};

const READINGS: SqlList = {
  alias: "r",
  from: `warranty_reading r JOIN unit u ON u.firm_id = r.firm_id AND u.id = r.unit_id
    JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
    JOIN person p ON p.firm_id = r.firm_id AND p.id = r.created_by_id`,
  columns: {
    ...{ model: "m.code", serial: "u.serial", readOn: "r.read_on::text" },
    ...{ throughputKwh: "r.throughput_kwh", temperatureLowest: "r.temperature_lowest" },
    ...{ temperatureHighest: "r.temperature_highest", enteredBy: "p.name" },
    enteredAt: moment("r.created_at"),
  },
  conditions: { unitId: equals("r.unit_id", "uuid") },
};

const TERMS: SqlList = {
  alias: "t",
  from: "warranty_terms t JOIN product_model m ON m.firm_id = t.firm_id AND m.id = t.model_id",
  columns: {
    ...{ model: "m.code", version: "t.number", appliesFrom: "t.applies_from::text" },
    ...{ years: "t.years", throughputKwh: "t.throughput_kwh" },
    ...{ registerWithinDays: "t.register_within_days", evidenceNeeded: "t.evidence_needed" },
    ...{ firmwareLevel: "t.firmware_level", firmwareWithinDays: "t.firmware_within_days" },
    ...{ temperatureLowest: "t.temperature_lowest", temperatureHighest: "t.temperature_highest" },
    ...{ endMovesToWorkingDay: "t.end_moves_to_working_day", source: "t.source" },
  },
  conditions: { modelId: equals("t.model_id", "uuid") },
};

export const warrantyClaims = ofTable(CLAIMS, {
  ...{ name: "warranty-claims", operationId: "exportWarrantyClaims" },
  summary: "Take the warranty claims away",
  query: ClaimQuery.omit(PAGING).extend(SORTED),
});

export const warrantyReadings = ofTable(READINGS, {
  ...{ name: "warranty-readings", operationId: "exportWarrantyReadings" },
  summary: "Take the throughputs and temperatures that were entered away",
  query: z.strictObject({ unitId: z.guid() }).partial(),
});

export const warrantyTerms = ofTable(TERMS, {
  ...{ name: "warranty-terms", operationId: "exportWarrantyTerms" },
  summary: "Take the warranty terms of the product models away, each version",
  query: z.strictObject({ modelId: z.guid() }).partial(),
});
