import type { UnitLifeRow } from "./life-store.ts";
import type { UnitRow } from "./store.ts";

export function shown(row: UnitRow) {
  return {
    ...row,
    quarantinedAt: row.quarantinedAt?.toISOString() ?? null,
    firmwareReadAt: row.firmwareReadAt?.toISOString() ?? null,
    createdAt: row.createdAt.toISOString(),
  };
}

export function shownWithLife(row: UnitLifeRow) {
  return {
    ...row,
    ...shown(row),
    events: row.events.map((event) => ({ ...event, at: moment(event.at) })),
    firmwareReadings: row.firmwareReadings.map((reading) => ({
      ...reading,
      readAt: moment(reading.readAt),
    })),
    replaces: row.replaces.map((swap) => ({ ...swap, at: moment(swap.at) })),
    replacedBy: row.replacedBy.map((swap) => ({ ...swap, at: moment(swap.at) })),
  };
}

const moment = (text: string): string => new Date(text).toISOString();
