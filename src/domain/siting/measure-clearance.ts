// How far a thing is from a unit, in the way the rule counts it. AS/NZS 5139 draws a rectangular
// zone around the unit, wider above than beside (a fire climbs); PAS 63100, NFPA 855 and the IRC
// give one distance, taken as the shortest straight line.
import type { Direction } from "./finding.ts";
import { type Gap, gapBetween } from "./geometry.ts";
import type { RequiredDistance } from "./rule-pack.ts";
import type { SurveyFeature, SurveyUnit } from "./survey.ts";
import type { SurveyIndex } from "./survey-index.ts";

export interface Distance {
  measuredMm: number;
  requiredMm: number;
  direction: Direction;
  how: "drawn" | "seen from above" | "by tape";
}

/**
 * Distance from a unit to another thing, and what the rule needs that way; mm, edge to edge.
 * A tape measure outranks the drawing. `not-drawn`: same place, but on another plane, so only a
 * tape can tell. `elsewhere`: another place altogether.
 */
export function measureDistance(
  index: SurveyIndex,
  unit: SurveyUnit,
  other: SurveyFeature | SurveyUnit,
  required: RequiredDistance,
): Distance | "not-drawn" | "elsewhere" {
  const tape = index.tapeBetween(unit.id, other.id);
  if (tape) {
    const direction = required.shape === "zone" ? tape.direction : "straight-line";
    return {
      measuredMm: tape.distanceMm,
      requiredMm: requiredFor(required, direction),
      direction,
      how: "by tape",
    };
  }
  if (unit.planeId !== other.planeId) {
    return index.roomOf(unit).id === index.roomOf(other).id ? "not-drawn" : "elsewhere";
  }
  const gap = gapBetween(unit, other);
  // A plan shows no heights, so nothing may be excused for lying above: the shortest line decides.
  if (index.planeOf(unit).view === "plan") {
    return straight(gap, requiredFor(required, "beside"), "seen from above");
  }
  return required.shape === "zone"
    ? zoneDistance(gap, required)
    : straight(gap, required.minimumMm, "drawn");
}

function straight(gap: Gap, requiredMm: number, how: Distance["how"]): Distance {
  return { measuredMm: gap.straightMm, requiredMm, direction: "straight-line", how };
}

/** To be out of a rectangular zone it is enough to be out of it one way: the better way counts. */
function zoneDistance(gap: Gap, required: RequiredDistance): Distance {
  const upward = gap.height === "below" ? "below" : "above";
  const across: Distance = {
    measuredMm: gap.acrossMm,
    requiredMm: requiredFor(required, "beside"),
    direction: "beside",
    how: "drawn",
  };
  const up: Distance = {
    measuredMm: gap.upMm,
    requiredMm: requiredFor(required, upward),
    direction: upward,
    how: "drawn",
  };
  if (gap.height === "level") return across;
  if (gap.acrossMm === 0) return up;
  return up.measuredMm - up.requiredMm > across.measuredMm - across.requiredMm ? up : across;
}

function requiredFor(required: RequiredDistance, direction: Direction): number {
  if (required.shape === "straight-line") return required.minimumMm;
  if (direction === "above") return required.aboveMm;
  if (direction === "below") return required.belowMm;
  return required.besideMm;
}
