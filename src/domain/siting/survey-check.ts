// A survey is judged by who stands on which plane in which room; a dangling or doubled name would
// silently drop a thing from the judgement, so such a document is refused whole.

interface Placed {
  id: string;
  planeId: string;
  xMm: number;
  yMm: number;
  widthMm: number;
  heightMm: number;
}
interface Checked {
  rooms: { id: string }[];
  planes: { id: string; roomId: string; widthMm: number; heightMm: number }[];
  units: Placed[];
  features: Placed[];
  tape: { fromId: string; toId: string }[];
  ambient?: { minimumC: number; maximumC: number } | undefined;
}
export interface SurveyProblem {
  path: (string | number)[];
  message: string;
}

/** Doubled ids, references to nothing, things that stick out of their plane. */
export function checkSurvey(survey: Checked): SurveyProblem[] {
  return [
    ...doubledIds(survey),
    ...danglingPlanes(survey),
    ...misplaced(survey, "units"),
    ...misplaced(survey, "features"),
    ...danglingTape(survey),
    ...ambientOrder(survey),
  ];
}

function doubledIds(survey: Checked): SurveyProblem[] {
  const seen = new Set<string>();
  const problems: SurveyProblem[] = [];
  for (const list of ["rooms", "planes", "units", "features"] as const) {
    survey[list].forEach(({ id }, index) => {
      if (seen.has(id))
        problems.push({ path: [list, index, "id"], message: `${id} is used twice` });
      seen.add(id);
    });
  }
  return problems;
}

function danglingPlanes(survey: Checked): SurveyProblem[] {
  const rooms = new Set(survey.rooms.map((room) => room.id));
  return survey.planes.flatMap((plane, index) =>
    rooms.has(plane.roomId)
      ? []
      : [{ path: ["planes", index, "roomId"], message: `no room is called ${plane.roomId}` }],
  );
}

function misplaced(survey: Checked, list: "units" | "features"): SurveyProblem[] {
  return survey[list].flatMap((thing, index): SurveyProblem[] => {
    const plane = survey.planes.find((candidate) => candidate.id === thing.planeId);
    if (!plane) {
      return [{ path: [list, index, "planeId"], message: `no plane is called ${thing.planeId}` }];
    }
    const fits =
      thing.xMm + thing.widthMm <= plane.widthMm + 0.001 &&
      thing.yMm + thing.heightMm <= plane.heightMm + 0.001;
    return fits ? [] : [{ path: [list, index], message: `${thing.id} sticks out of ${plane.id}` }];
  });
}

function danglingTape(survey: Checked): SurveyProblem[] {
  const units = new Set(survey.units.map((unit) => unit.id));
  const all = new Set([...units, ...survey.features.map((feature) => feature.id)]);
  return survey.tape.flatMap(({ fromId, toId }, index): SurveyProblem[] => {
    if (!units.has(fromId)) {
      return [{ path: ["tape", index, "fromId"], message: `no unit is called ${fromId}` }];
    }
    if (!all.has(toId) || toId === fromId) {
      return [{ path: ["tape", index, "toId"], message: `${toId} cannot be measured to` }];
    }
    return [];
  });
}

function ambientOrder({ ambient }: Checked): SurveyProblem[] {
  return ambient && ambient.minimumC > ambient.maximumC
    ? [{ path: ["ambient"], message: "the lowest temperature is above the highest" }]
    : [];
}
