// Requirement: until a road source is configured, drive time is geodesic distance times circuity
// over speed (product rule). Circuity is how much longer roads are than the straight line: Ballou,
// Rahardja and Sakai, Transportation Research A 36 (2002), from memory: about 1.2 in the United
// States and 1.4 in England, so it is a setting and the plan an estimate.
import { geodesicM, type Position } from "./geodesic.ts";

/** From row to column, as many rows and columns as places. */
export interface Travel {
  minutes: readonly (readonly number[])[];
  distanceM: readonly (readonly number[])[];
}

export interface RoadEstimate {
  circuity: number;
  speedKmPerH: number;
}

/** Common practice for mixed country and town roads, no source beside the one above. */
export const ROAD_ESTIMATE: RoadEstimate = { circuity: 1.3, speedKmPerH: 60 };

/** Estimated drive minutes and metres between positions. Throws RangeError for a bad estimate. */
export function estimatedTravel(
  positions: readonly Position[],
  { circuity, speedKmPerH }: RoadEstimate = ROAD_ESTIMATE,
): Travel {
  if (!(circuity >= 1 && Number.isFinite(circuity))) throw new RangeError("circuity is 1 or more");
  if (!(speedKmPerH > 0 && Number.isFinite(speedKmPerH))) throw new RangeError("speed is above 0");
  const distanceM = positions.map((from) =>
    positions.map((to) => (from === to ? 0 : geodesicM(from, to) * circuity)),
  );
  const minutes = distanceM.map((row) => row.map((metres) => minutesFor(metres, speedKmPerH)));
  return { minutes, distanceM };
}

const minutesFor = (metres: number, speedKmPerH: number): number =>
  (metres / 1000 / speedKmPerH) * 60;
