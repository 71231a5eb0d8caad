// The judges ask the same things of a survey again and again: who stands where, what was measured
// between two things. The answers are kept in one place so that every rule sees the same survey.
import { lengthText } from "./finding.ts";
import type { Survey, SurveyFeature, SurveyPlane, SurveyRoom, SurveyUnit } from "./survey.ts";
import type { RoomKind } from "./vocabulary.ts";

export interface SurveyIndex {
  survey: Survey;
  batteries: readonly SurveyUnit[];
  planeOf(thing: SurveyUnit | SurveyFeature): SurveyPlane;
  roomOf(thing: SurveyUnit | SurveyFeature): SurveyRoom;
  tapeBetween(unitId: string, otherId: string): Survey["tape"][number] | undefined;
  length(lengthMm: number): string;
}

/** Look-ups over a parsed survey; throws only where the survey was not parsed. */
export function indexSurvey(survey: Survey): SurveyIndex {
  const planes = new Map(survey.planes.map((plane) => [plane.id, plane]));
  const rooms = new Map(survey.rooms.map((room) => [room.id, room]));
  // Of two tapes between the same things the first counts; ids hold no spaces.
  const tapes = new Map(
    survey.tape.toReversed().map((tape) => [`${tape.fromId} ${tape.toId}`, tape]),
  );
  const planeOf = (thing: SurveyUnit | SurveyFeature): SurveyPlane =>
    known(planes.get(thing.planeId), thing.planeId);
  return {
    survey,
    batteries: survey.units.filter((unit) => unit.role === "battery"),
    planeOf,
    roomOf: (thing) => {
      const { roomId } = planeOf(thing);
      return known(rooms.get(roomId), roomId);
    },
    tapeBetween: (unitId, otherId) => tapes.get(`${unitId} ${otherId}`),
    length: (lengthMm) => lengthText(lengthMm, survey.displayLength),
  };
}

/** Whether a rule limited to some places applies: yes, no, or the place was not named. */
export function roomApplies(
  room: SurveyRoom,
  wanted: readonly RoomKind[] | undefined,
): "yes" | "no" | "unknown" {
  if (!wanted || room.kinds.some((kind) => wanted.includes(kind))) return "yes";
  return room.kinds.includes("unknown") ? "unknown" : "no";
}

// parseSurvey refuses dangling names, so a miss here is a programming error and not a bad survey.
function known<T>(value: T | undefined, id: string): T {
  if (value === undefined) throw new Error(`survey was not parsed: nothing is called ${id}`);
  return value;
}
