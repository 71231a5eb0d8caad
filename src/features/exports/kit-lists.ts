// Banks, instruments and stock in their particulars.
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { BankQuery } from "../banks/schemas.ts";
import { InstrumentEventQuery } from "../instruments/event-schemas.ts";
import { readMissing } from "../stock/missing.ts";
import { MissingQuery } from "../stock/missing-schemas.ts";
import { countStock } from "../stock/store.ts";
import type { ExportList } from "./list.ts";
import { equals, moment, type SqlList } from "./list-store.ts";
import { ofTable, PAGING } from "./lists.ts";

const BANKS: SqlList = {
  alias: "b",
  from: "bank b JOIN site s ON s.firm_id = b.firm_id AND s.id = b.site_id",
  columns: {
    ...{ site: "s.reference", name: "b.name", protocol: "b.protocol" },
    packs: `(SELECT string_agg(u.serial, ' ' ORDER BY u.bank_position) FROM unit u
      WHERE u.firm_id = b.firm_id AND u.bank_id = b.id)`,
  },
  conditions: { siteId: equals("b.site_id", "uuid") },
};

const CALIBRATIONS: SqlList = {
  alias: "c",
  from: "calibration c JOIN instrument i ON i.firm_id = c.firm_id AND i.id = c.instrument_id",
  columns: {
    ...{ instrument: "i.reference", serial: "i.serial", calibratedOn: "c.calibrated_on::text" },
    ...{ dueOn: "c.due_on::text", passed: "c.passed", certificate: "c.certificate" },
  },
  conditions: { instrumentId: equals("c.instrument_id", "uuid") },
};

const INSTRUMENT_EVENTS: SqlList = {
  alias: "e",
  from: `instrument_event e JOIN instrument i ON i.firm_id = e.firm_id AND i.id = e.instrument_id
    JOIN person p ON p.firm_id = e.firm_id AND p.id = e.person_id`,
  columns: {
    ...{ instrument: "i.reference", kind: "e.kind", at: "e.at_text", cycles: "e.cycles" },
    ...{ note: "e.note", person: "p.name" },
  },
  conditions: {
    instrumentId: equals("e.instrument_id", "uuid"),
    kind: equals("e.kind", "text"),
  },
};

const MOVEMENTS: SqlList = {
  alias: "m",
  from: `consumable_movement m
    JOIN consumable c ON c.firm_id = m.firm_id AND c.id = m.consumable_id
    JOIN person p ON p.firm_id = m.firm_id AND p.id = m.person_id
    LEFT JOIN job j ON j.firm_id = m.firm_id AND j.id = m.job_id`,
  columns: {
    ...{ code: "c.code", kind: "m.kind", amount: "m.amount::float8", countedIn: "c.counted_in" },
    ...{ place: "m.place", job: "j.reference", deliveryNote: "m.delivery_note", note: "m.note" },
    ...{ person: "p.name", at: moment("m.at") },
  },
  conditions: { consumableId: equals("m.consumable_id", "uuid") },
};

export const banks = ofTable(BANKS, {
  ...{ name: "banks", operationId: "exportBanks", summary: "Take the banks and their packs away" },
  query: BankQuery.omit(PAGING),
});

export const calibrations = ofTable(CALIBRATIONS, {
  ...{ name: "calibrations", operationId: "exportCalibrations" },
  summary: "Take the calibrations away, of all instruments or of one",
  query: z.strictObject({ instrumentId: z.guid() }).partial(),
});

export const instrumentEvents = ofTable(INSTRUMENT_EVENTS, {
  ...{ name: "instrument-events", operationId: "exportInstrumentEvents" },
  summary: "Take away what happened to instruments, to all or to one",
  query: InstrumentEventQuery.omit(PAGING).extend({ instrumentId: z.guid().optional() }),
});

export const movements = ofTable(MOVEMENTS, {
  ...{ name: "consumable-movements", operationId: "exportMovements" },
  summary: "Take away what came, went and was counted of consumables",
  query: z.strictObject({ consumableId: z.guid() }).partial(),
});

const COUNTS_MOST = 10_000;
const Whole = z.strictObject({});

export const stockCounts: ExportList<z.output<typeof Whole>> = {
  ...{ name: "stock-counts", operationId: "exportStockCounts", query: Whole },
  summary: "Take away how many units of each model lie where",
  columns: ["model", "name", "place", "units", "free", "quarantined"],
  async *pages({ db, firmId }) {
    const rows = await inFirm(db, firmId, (tx) => countStock(tx, COUNTS_MOST));
    yield rows.map((row) => [
      ...[row.modelCode, row.modelName, row.place, row.units, row.free, row.quarantined],
    ]);
  },
};

/** A line a thing that is missing, of any kind. */
export const missing: ExportList<z.output<typeof MissingQuery>> = {
  ...{ name: "missing", operationId: "exportMissing", query: MissingQuery },
  summary: "Take away what is missing for the visits of a day",
  columns: ["day", "startsAt", "crew", "job", "what", "thing", "problem", "needed", "there"],
  async *pages({ db, firmId, now }, { day }) {
    const found = await inFirm(db, firmId, (tx) => readMissing(tx, day, now));
    yield found.items.flatMap(({ startsAt, crew, job, ...visit }) => {
      const of = [found.day, startsAt, crew, job.reference];
      return [
        ...(visit.unitsUnnamed ? [[...of, "unit", null, "unnamed", null, null]] : []),
        ...visit.units.map(({ serial, problem }) => [...of, "unit", serial, problem, null, null]),
        ...visit.consumables.map(({ code, amount, there }) => [
          ...[...of, "consumable", code, "short", amount, there],
        ]),
        ...visit.instruments.map(({ toolClass, problem, reference }) => [
          ...[...of, "instrument", reference ?? toolClass, problem, null, null],
        ]),
      ];
    });
  },
};
