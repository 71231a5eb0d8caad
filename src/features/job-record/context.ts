import type { Answer } from "../../domain/acceptance/answer.ts";
import type { SerialRule } from "../../domain/identifiers/serial-rule.ts";
import type { JobContext } from "../../domain/plan/context.ts";
import type { UnitKind } from "../../domain/plan/item.ts";
import type { AnswerRow, JobRecord } from "./store.ts";

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
    instruments: record.instruments.map((instrument) => ({
      id: instrument.id,
      reference: instrument.reference,
      class: instrument.instrumentClass,
      calibrations: instrument.calibrations,
      ...(instrument.accuracy ? { accuracy: instrument.accuracy } : {}),
      ...(instrument.rangeMax
        ? { range: { max: instrument.rangeMax.value, unit: instrument.rangeMax.unit } }
        : {}),
      ...(instrument.resolution ? { resolution: instrument.resolution } : {}),
      ...(instrument.retiredOn === null ? {} : { retiredOn: instrument.retiredOn }),
    })),
    concessions: record.concessions.map(({ expiresOn, ...concession }) => ({
      ...concession,
      ...(expiresOn === null ? {} : { expiresOn }),
    })),
    photosHeld: new Set(record.photos),
    now: now.toISOString(),
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
