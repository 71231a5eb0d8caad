import type { Answer } from "../../domain/acceptance/answer.ts";
import type { SerialRule } from "../../domain/identifiers/serial-rule.ts";
import type { InstrumentFacts, JobContext } from "../../domain/plan/context.ts";
import type { UnitKind } from "../../domain/plan/item.ts";
import type { AnswerRow, InstrumentRow, JobRecord } from "./store.ts";

/** The stored record as the rules want it. */
export function toContext(record: JobRecord, now: Date): JobContext {
  const { supply, region, country, timeZone } = record.job;
  return {
    site: { supply, region, country, timeZone },
    units: record.units.map((unit) => ({
      id: unit.id,
      serial: unit.serial,
      kind: unit.kind as UnitKind,
      modelCode: unit.modelCode,
      position: unit.position,
      attributes: unit.attributes,
      serialRule: { mask: unit.serialMask, check: unit.serialCheck } as SerialRule,
      ...(unit.hardwareRevision === null ? {} : { hardwareRevision: unit.hardwareRevision }),
    })),
    instruments: record.instruments.map((row) => toInstrument(row, record.lastOrder)),
    concessions: record.concessions.map(({ expiresOn, ...concession }) => ({
      ...concession,
      ...(expiresOn === null ? {} : { expiresOn }),
    })),
    photosHeld: new Set(record.photos),
    now: now.toISOString(),
  };
}

/** @param usesThrough receipt order of the job's last answer that the uses in the row hold */
export function toInstrument(row: InstrumentRow, usesThrough: number): InstrumentFacts {
  const { rangeMax, retiredOn, intervalCycles, accuracy, resolution } = row;
  return {
    id: row.id,
    reference: row.reference,
    class: row.instrumentClass,
    calibrations: row.calibrations,
    ...(accuracy ? { accuracy } : {}),
    ...(rangeMax ? { range: { max: rangeMax.value, unit: rangeMax.unit } } : {}),
    ...(resolution ? { resolution } : {}),
    ...(retiredOn === null ? {} : { retiredOn }),
    ...(row.events.length > 0 ? { events: row.events } : {}),
    ...(intervalCycles === null ? {} : { intervalCycles, uses: row.uses, usesThrough }),
  };
}

export const toAnswers = (rows: readonly AnswerRow[]): Answer[] =>
  rows.map((row) => ({
    id: row.id,
    itemId: row.itemId,
    subject: row.subject,
    takenAt: row.takenAt,
    personId: row.personId,
    order: row.receiptOrder,
    value: row.value,
    photos: row.photos,
    ...(row.instrumentId === null ? {} : { instrumentId: row.instrumentId }),
    ...(row.note === null ? {} : { note: row.note }),
  }));
