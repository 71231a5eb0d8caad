import type { RoundsProblem } from "../../../src/domain/rounds/rounds-problem.ts";

export interface Tour {
  name: string;
  places: readonly (readonly [number, number])[];
  optimum: number;
}

export interface WindowInstance {
  name: string;
  depot: readonly [number, number];
  closesAt: number;
  workMin: number;
  customers: readonly (readonly number[])[];
  count: number;
  optimum: number;
}

const numbersIn = (text: string): number[][] =>
  text.split(",").map((entry) => entry.trim().split(/\s+/).map(Number));

export const placesIn = (text: string): [number, number][] =>
  numbersIn(text).map(([x, y]) => [x!, y!]);

export const customersIn = (text: string): number[][] => numbersIn(text);

/** The closed tour as one round from the first place; minutes are the instance's lengths. */
export function tourProblem({ places }: Tour): RoundsProblem {
  const rows = places.map(([x, y]) => places.map(([u, v]) => Math.round(Math.hypot(x - u, y - v))));
  const crew = { id: "c", label: "Crew", startPlace: 0, endPlace: 0, startsMin: 0, endsMin: 1e9 };
  return {
    crewDays: [crew],
    visits: places.slice(1).map((_, index) => ({
      id: `v${index + 1}`,
      label: `Site ${index + 1}`,
      place: index + 1,
      workMin: 0,
    })),
    travel: { minutes: rows, distanceM: rows },
  };
}

/** Everything in tenths, so that distances cut to one decimal are whole. */
export function windowProblem(instance: WindowInstance): RoundsProblem {
  const { depot, closesAt, workMin } = instance;
  const customers = instance.customers.slice(0, instance.count);
  const places = [depot, ...customers.map(([x, y]) => [x!, y!] as const)];
  const rows = places.map(([x, y]) =>
    places.map(([u, v]) => Math.floor(Math.hypot(x - u, y - v) * 10)),
  );
  const hours = { startPlace: 0, endPlace: 0, startsMin: 0, endsMin: closesAt * 10, loadMost: 200 };
  return {
    crewDays: Array.from({ length: 25 }, (_, crew) => ({
      id: `c${crew}`,
      label: `Crew ${crew}`,
      ...hours,
    })),
    visits: customers.map(([, , load, from, to], index) => ({
      id: `v${index + 1}`,
      label: `Site ${index + 1}`,
      place: index + 1,
      workMin: workMin * 10,
      load,
      windows: [{ fromMin: from! * 10, toMin: to! * 10 }],
    })),
    travel: { minutes: rows, distanceM: rows },
  };
}
