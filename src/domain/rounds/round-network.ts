// Requirement: rounds keep working hours, windows, skills and loads (product rule). The problem as
// flat tables for the search: nodes are the visits, then for each round its start and its end.
import type { CrewDay, RoundsProblem, RoundVisit, TimeWindow } from "./rounds-problem.ts";

export interface RoundNetwork {
  visits: number;
  rounds: number;
  nodes: number;
  /** Nodes by nodes: drive minutes. */
  drive: Float64Array;
  /** Whether every way is as long there as back. */
  sameBothWays: boolean;
  /** By node: minutes of work; 0 at starts and ends. */
  work: Float64Array;
  load: Float64Array;
  loadMost: Float64Array;
  /** Rounds by visits: when the work may begin; NEVER where this crew cannot do it. */
  opens: Float64Array;
  closes: Float64Array;
  startsMin: Float64Array;
  endsMin: Float64Array;
  /** By round: the first round it may be exchanged with (same places, hours, skills, load). */
  alike: Int32Array;
  crewDayMin: number;
  /** By visit: the cost of leaving it out. */
  leftOut: Float64Array;
  /** By visit: all other visits, nearest first. */
  near: readonly Int32Array[];
}

export const NEVER = Number.NEGATIVE_INFINITY;
/** More than any driving, so that leaving a visit out is the last thing done. */
const LEFT_OUT_MIN = 1e6;

/** The node at which a round starts; its end is the next. */
export const startNode = (network: RoundNetwork, round: number): number =>
  network.visits + 2 * round;

/** Lays a problem out; it has been checked before (`problemWith`). */
export function networkOf(problem: RoundsProblem): RoundNetwork {
  const { crewDays, visits, travel } = problem;
  const places = [
    ...visits.map(({ place }) => place),
    ...crewDays.flatMap(({ startPlace, endPlace }) => [startPlace, endPlace]),
  ];
  const rows = places.map((from) => places.map((to) => travel.minutes[from]?.[to] ?? 0));
  const windows = crewDays.map((crew) => visits.map((visit) => windowFor(crew, visit)));
  const keys = crewDays.map(alikeKey);
  return {
    visits: visits.length,
    rounds: crewDays.length,
    nodes: places.length,
    drive: Float64Array.from(rows.flat()),
    sameBothWays: rows.every((row, a) => row.every((one, b) => one === rows[b]?.[a])),
    work: Float64Array.from(places, (_, node) => visits[node]?.workMin ?? 0),
    load: Float64Array.from(visits, ({ load }) => load ?? 0),
    loadMost: Float64Array.from(crewDays, ({ loadMost }) => loadMost ?? Number.POSITIVE_INFINITY),
    opens: Float64Array.from(windows.flat(), (window) => window?.fromMin ?? 0),
    closes: Float64Array.from(windows.flat(), (window) => window?.toMin ?? NEVER),
    startsMin: Float64Array.from(crewDays, ({ startsMin }) => startsMin),
    endsMin: Float64Array.from(crewDays, ({ endsMin }) => endsMin),
    alike: Int32Array.from(keys, (key) => keys.indexOf(key)),
    crewDayMin: problem.crewDayMin ?? 0,
    leftOut: Float64Array.from(visits, ({ priority }) => LEFT_OUT_MIN * (priority ?? 1)),
    near: visits.map((_, visit) => nearest(rows, visits.length, visit)),
  };
}

/** When a crew may begin a visit's work; undefined where it never may. */
export function windowFor(crew: CrewDay, visit: RoundVisit): TimeWindow | undefined {
  const skills = new Set(crew.skills ?? []);
  if (!(visit.skills ?? []).every((skill) => skills.has(skill))) return undefined;
  const wanted = visit.windows ?? [{ fromMin: crew.startsMin, toMin: crew.endsMin }];
  const within = wanted
    .map(({ fromMin, toMin }) => ({
      fromMin: Math.max(fromMin, crew.startsMin),
      toMin: Math.min(toMin, crew.endsMin),
    }))
    .filter(({ fromMin, toMin }) => fromMin <= toMin);
  const length = ({ fromMin, toMin }: TimeWindow): number => toMin - fromMin;
  return within.reduce<TimeWindow | undefined>(
    (best, window) => (best && length(best) >= length(window) ? best : window),
    undefined,
  );
}

function alikeKey(crew: CrewDay): string {
  const { startPlace, endPlace, startsMin, endsMin, loadMost, skills = [] } = crew;
  const places = [startPlace, endPlace, startsMin, endsMin, loadMost];
  return JSON.stringify([places, [...skills].sort()]);
}

function nearest(rows: readonly number[][], visits: number, visit: number): Int32Array {
  const between = (other: number): number =>
    (rows[visit]?.[other] ?? 0) + (rows[other]?.[visit] ?? 0);
  const others = Array.from({ length: visits }, (_, other) => other);
  return Int32Array.from(
    others.filter((other) => other !== visit).sort((a, b) => between(a) - between(b)),
  );
}
