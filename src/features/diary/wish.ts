import type { FirmTransaction } from "../../db/scope.ts";
import type { Wish } from "../../domain/scheduling/diary-facts.ts";
import { readFirm } from "../firms/store.ts";
import { requirementsByKind } from "../qualifications/requirement-store.ts";
import { heldBy } from "../qualifications/store.ts";
import { holidaysBetween } from "../working-hours/days-off.ts";
import { instrumentFacts } from "./facts-store.ts";

export interface WantedWork {
  kind: string;
  minutes: number;
  site: {
    latitude: number;
    longitude: number;
    timeZone: string;
    country: string;
    region: string;
  };
  instrumentIds: readonly string[];
  personIds: readonly string[];
  /** Days of the site's calendar, both included. */
  days: { from: string; to: string };
  span: { startsAt: Date; endsAt: Date };
  notBefore: Date;
  /** The visit that is looked at itself. */
  exceptVisitId?: string;
}

/** What is asked of the diary, with the rules that hold for it. */
export async function wishFor(tx: FirmTransaction, work: WantedWork): Promise<Wish> {
  const { kind, minutes, site, instrumentIds, personIds, days, span, notBefore } = work;
  const firm = await readFirm(tx);
  const requirements = (await requirementsByKind(tx)).get(kind) ?? [];
  return {
    ...{ minutes, timeZone: site.timeZone, notBeforeMs: notBefore.getTime(), requirements },
    position: { latitudeDeg: site.latitude, longitudeDeg: site.longitude },
    daysOff: new Set(holidaysBetween(firm, site, days.from, days.to).keys()),
    held: requirements.length > 0 ? await heldBy(tx, personIds) : [],
    instruments: await instrumentFacts(tx, instrumentIds, span, work.exceptVisitId),
    base: baseOf(firm),
  };
}

export const baseOf = (firm: { baseLatitude: number | null; baseLongitude: number | null }) =>
  firm.baseLatitude !== null && firm.baseLongitude !== null
    ? { latitudeDeg: firm.baseLatitude, longitudeDeg: firm.baseLongitude }
    : null;
