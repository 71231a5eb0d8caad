import type { FirmTransaction } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { type WarrantyFacts, warrantyState } from "../../domain/warranty/state.ts";
import type { WarrantyTerms } from "../../domain/warranty/terms.ts";
import { type FactFilter, type FactRow, readFacts } from "./fact-store.ts";
import type { UnitWarranty } from "./schemas.ts";
import { readTerms, type TermsRow } from "./store.ts";

/** The warranty of each unit asked for, today by its site's calendar. */
export async function judgeUnits(
  tx: FirmTransaction,
  filter: FactFilter,
  now: Date,
): Promise<UnitWarranty[]> {
  const rows = await readFacts(tx, filter);
  const ids = new Set(rows.flatMap(({ termsId }) => termsId ?? []));
  const terms = new Map((await readTerms(tx, [...ids])).map((row) => [row.id, row]));
  return rows.map((row) => judge(row, terms.get(row.termsId ?? ""), now));
}

function judge(row: FactRow, terms: TermsRow | undefined, now: Date): UnitWarranty {
  const today = localDay(now.toISOString(), row.timeZone);
  const found = terms ? warrantyState(domainTerms(terms), factsOf(row), today) : undefined;
  const { unitId, serial, modelCode, siteId, siteReference, commissionedOn } = row;
  return {
    ...{ unitId, serial, modelCode, siteId, siteReference, commissionedOn },
    terms: terms ? { id: terms.id, number: terms.number } : null,
    state: found?.state ?? null,
    reasons: found?.reasons ?? [],
    gaps: found?.gaps ?? [],
    endsOn: found?.endsOn ?? null,
    registerBy: found?.registerBy ?? null,
    firmwareBy: found?.firmwareBy ?? null,
    registration:
      row.registeredOn === null || row.reference === null
        ? null
        : { registeredOn: row.registeredOn, reference: row.reference, note: row.note },
    throughput: found?.throughput ?? null,
  };
}

export function domainTerms(row: TermsRow): WarrantyTerms {
  const { years, throughputKwh, registerWithinDays, evidenceNeeded, endMovesToWorkingDay } = row;
  const { firmwareLevel: level, firmwareWithinDays: withinDays } = row;
  const { temperatureLowest: lowest, temperatureHighest: highest } = row;
  return {
    ...{ years, evidenceNeeded, endMovesToWorkingDay },
    ...(throughputKwh === null ? {} : { throughputKwh }),
    ...(registerWithinDays === null ? {} : { registerWithinDays }),
    ...(level === null || withinDays === null ? {} : { firmware: { level, withinDays } }),
    ...(lowest === null || highest === null ? {} : { temperature: { lowest, highest } }),
  };
}

function factsOf(row: FactRow): WarrantyFacts {
  const { commissionedOn, registeredOn, firmwareReachedOn, lowest, highest, kwh, kwhOn } = row;
  return {
    ...(commissionedOn === null ? {} : { commissionedOn }),
    ...(registeredOn === null ? {} : { registeredOn }),
    ...(firmwareReachedOn === null ? {} : { firmwareReachedOn }),
    evidenceComplete: row.evidenceComplete,
    throughputReadings: kwh === null || kwhOn === null ? [] : [{ on: kwhOn, kwh }],
    temperatureReadings:
      commissionedOn === null || lowest === null || highest === null
        ? []
        : [{ on: commissionedOn, lowest, highest }],
  };
}
