import type { z } from "zod";
import type { Calibration, Instrument, InstrumentWithCalibrations } from "./schemas.ts";
import { type Here, standingOf } from "./standing.ts";
import type { InstrumentRow as Row } from "./store.ts";

type Shown = z.infer<typeof Instrument>;

/** The row's last calibration says when it is due; a failed one means it is not in date at all. */
export function shown(row: Row, here: Here): Shown {
  const [last] = row.calibrations;
  const { calibrations: _all, events: _events, uses: _uses, ...fields } = row;
  return {
    ...fields,
    instrumentClass: row.instrumentClass as Shown["instrumentClass"],
    accuracy: row.accuracy as Shown["accuracy"],
    rangeMax: row.rangeMax as Shown["rangeMax"],
    resolution: row.resolution as Shown["resolution"],
    torqueTool: row.torqueTool as Shown["torqueTool"],
    calibratedOn: last ? day(last.calibratedOn) : null,
    dueOn: last?.passed ? day(last.dueOn) : null,
    ...standingOf(row, here),
    retiredOn: row.retiredOn ? day(row.retiredOn) : null,
    createdAt: row.createdAt.toISOString(),
  };
}

export function shownWithCalibrations(
  row: Row,
  here: Here,
): z.infer<typeof InstrumentWithCalibrations> {
  return { ...shown(row, here), calibrations: row.calibrations.map(shownCalibration) };
}

export function shownCalibration(row: Row["calibrations"][number]): z.infer<typeof Calibration> {
  const { id, passed, certificate } = row;
  return {
    id,
    calibratedOn: day(row.calibratedOn),
    dueOn: day(row.dueOn),
    passed,
    certificate,
    createdAt: row.createdAt.toISOString(),
  };
}

const day = (date: Date): string => date.toISOString().slice(0, 10);
