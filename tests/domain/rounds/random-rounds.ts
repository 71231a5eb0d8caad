import type { RoundsProblem } from "../../../src/domain/rounds/rounds-problem.ts";
import type { Chance } from "../../support/chance.ts";

/** Crews and visits by chance, with ways that are longer there than back. */
export function randomRounds(chance: Chance, crewCount: number, visitCount: number): RoundsProblem {
  const places = Array.from({ length: visitCount + 2 }, () => [
    chance.between(0, 60),
    chance.between(0, 60),
  ]);
  const minutes = places.map(([x = 0, y = 0]) =>
    places.map(([u = 0, v = 0]) => Math.hypot(x - u, y - v) * (u > x ? 1.25 : 1)),
  );
  const skills = (share: number) => ["gas", "roof"].filter(() => chance.share() < share);
  return {
    crewDays: Array.from({ length: crewCount }, (_, crew) => ({
      id: `c${crew}`,
      label: `Crew ${crew}`,
      startPlace: chance.between(0, 1),
      endPlace: chance.between(0, 1),
      startsMin: 480 + 30 * chance.between(0, 2),
      endsMin: 720 + 60 * chance.between(0, 4),
      skills: skills(0.8),
      loadMost: chance.between(3, 9),
    })),
    visits: Array.from({ length: visitCount }, (_, visit) => ({
      id: `v${visit}`,
      label: `Site ${visit}`,
      place: visit + 2,
      workMin: chance.between(15, 60),
      windows: chance.share() < 0.5 ? [windowIn(chance, 480), windowIn(chance, 660)] : undefined,
      skills: skills(0.15),
      load: chance.between(0, 2),
      priority: chance.between(1, 3),
    })),
    travel: { minutes, distanceM: minutes.map((row) => row.map((one) => one * 1000)) },
    crewDayMin: chance.between(0, 1) * 20,
  };
}

function windowIn(chance: Chance, fromMin: number) {
  const from = fromMin + 15 * chance.between(0, 8);
  return { fromMin: from, toMin: from + 15 * chance.between(0, 6) };
}
