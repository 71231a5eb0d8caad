import type { Named } from "./diary-shape.ts";
import type { DiaryVisitRow } from "./visit-store.ts";

/** Whom a row of the diary is for. */
export interface RowKey extends Named {
  kind: "crew" | "person";
  people: Named[];
  isActive: boolean;
}

export function rowsByCrew(
  crews: readonly (Named & { people: Named[] })[],
  visits: readonly DiaryVisitRow[],
): RowKey[] {
  const active = crews
    .filter(({ id, people }) => people.length > 0 || visits.some(({ crew }) => crew.id === id))
    .map((crew): RowKey => ({ ...crew, kind: "crew", isActive: true }));
  const others = visits.map(({ crew }) => crew).filter((one) => !crews.some(isSame(one)));
  return inOrder([
    ...active,
    ...once(others).map((crew): RowKey => ({ ...crew, kind: "crew", people: [], isActive: false })),
  ]);
}

export function rowsByPerson(people: readonly Named[], visits: readonly DiaryVisitRow[]): RowKey[] {
  const booked = visits.flatMap(({ bookings }) => bookings.flatMap(({ person }) => person ?? []));
  const others = once(booked.filter((one) => !people.some(isSame(one))));
  const rowOf = (person: Named, isActive: boolean): RowKey => ({
    ...{ ...person, kind: "person", people: [person], isActive },
  });
  return inOrder([
    ...people.map((person) => rowOf(person, true)),
    ...others.map((person) => rowOf(person, false)),
  ]);
}

const isSame =
  (one: Named) =>
  (other: Named): boolean =>
    one.id === other.id;

const once = (named: readonly Named[]): Named[] => [
  ...new Map(named.map((one) => [one.id, one])).values(),
];

const inOrder = (keys: RowKey[]): RowKey[] =>
  keys.toSorted((a, b) => a.name.localeCompare(b.name) || a.id.localeCompare(b.id));
