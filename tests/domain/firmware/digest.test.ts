import { expect, test } from "vitest";
import {
  type DigestSite,
  ESCALATED_AFTER_DAYS,
  managerPart,
  wantedSites,
} from "../../../src/domain/firmware/digest.ts";

const site = (id: string, units: [string, number][], nextVisit: object | null = null) =>
  ({
    ...{ id, nextVisit },
    units: units.map(([severity, daysLeft]) => ({ severity, daysLeft })),
  }) as DigestSite;

test("who asks for safety alone hears of nothing else, and of every safety release", () => {
  const sites = [
    site("a", [
      ["routine", 3],
      ["safety", 20],
    ]),
    site("b", [["important", -40]]),
  ];
  const wanted = wantedSites(sites, "safety");
  expect(wanted.map(({ id, units }) => [id, units.length])).toEqual([["a", 1]]);
  expect(wantedSites(sites, "all")).toEqual(sites);
});

test.each<[string, DigestSite, boolean]>([
  ["on its day", site("a", [["safety", 0]]), false],
  ["a safety release a day over", site("a", [["safety", -1]]), true],
  ["an important one a day over", site("a", [["important", -1]]), false],
  ["one so many days over", site("a", [["routine", -ESCALATED_AFTER_DAYS]]), false],
  ["one more than that", site("a", [["routine", -ESCALATED_AFTER_DAYS - 1]]), true],
  ["with a visit booked", site("a", [["safety", -30]], {}), false],
])("%s is put before the manager or not (common practice, no source)", (_what, one, told) => {
  expect(managerPart([one]).escalated.length === 1).toBe(told);
});

test("what is past its day stands in the order of how long", () => {
  const sites = [
    site("a", [["routine", -2]]),
    site("b", [["routine", -9]]),
    site("c", [["safety", 4]]),
  ];
  expect(managerPart(sites).overdue.map(({ id }) => id)).toEqual(["b", "a"]);
});
