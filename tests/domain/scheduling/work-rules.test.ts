import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import {
  coveredUntil,
  expiring,
  type Held,
  lacking,
  lackSentence,
} from "../../../src/domain/scheduling/qualified.ts";
import { turnDay, turnsThrough } from "../../../src/domain/scheduling/recurrence.ts";

const turns = (firstDueOn: string, everyMonths: number, count: number): string[] =>
  Array.from({ length: count }, (_, number) => turnDay({ firstDueOn, everyMonths }, number));

describe("inspections that come round", () => {
  // RFC 5545 3.8.5.3, its example of every 18 months from 10 March 1997 on the 10th alone (from
  // memory); RFC 7529 4.1: SKIP=BACKWARD takes the last day of a month without the day.
  test.each([
    ["1997-03-10", 18, ["1997-03-10", "1998-09-10", "2000-03-10", "2001-09-10"]],
    ["2014-01-31", 1, ["2014-01-31", "2014-02-28", "2014-03-31", "2014-04-30"]],
    ["2016-02-29", 12, ["2016-02-29", "2017-02-28", "2018-02-28", "2019-02-28", "2020-02-29"]],
    ["2025-08-31", 6, ["2025-08-31", "2026-02-28", "2026-08-31", "2027-02-28", "2027-08-31"]],
  ])("from %s every %d months: %j", (first, every, days) => {
    expect(turns(first, every, days.length)).toEqual(days);
  });

  const start = fc
    .date({ min: new Date("2000-01-01"), max: new Date("2060-12-31"), noInvalidDate: true })
    .map((date) => date.toISOString().slice(0, 10));
  const byRule = (first: string, every: number, count: number): string[] => {
    const rule = ICAL.Recur.fromString(`FREQ=MONTHLY;INTERVAL=${every}`);
    const steps = rule.iterator(ICAL.Time.fromDateString(first));
    return Array.from({ length: count }, () => steps.next()?.toString() ?? "");
  };

  test("up to the 28th they are the days of RFC 5545's FREQ=MONTHLY (ical.js)", () => {
    fc.assert(
      fc.property(start, fc.integer({ min: 1, max: 60 }), (day, every) => {
        fc.pre(Number(day.slice(8)) <= 28);
        expect(turns(day, every, 12)).toEqual(byRule(day, every, 12));
      }),
    );
  });

  test("later in the month RFC 5545 leaves months out, and none is left out here", () => {
    expect(byRule("2014-01-31", 1, 4)).toEqual([
      ...["2014-01-31", "2014-03-31", "2014-05-31", "2014-07-31"],
    ]);
    fc.assert(
      fc.property(start, fc.integer({ min: 1, max: 60 }), (day, every) => {
        const [year = 0, month = 0, date = 0] = day.split("-").map(Number);
        for (const [number, found] of turns(day, every, 12).entries()) {
          const last = new Date(Date.UTC(year, month + number * every, 0));
          const clamped = Math.min(date, last.getUTCDate());
          const months = last.toISOString().slice(0, 8);
          expect(found).toBe(`${months}${String(clamped).padStart(2, "0")}`);
        }
      }),
    );
  });

  test.each([
    ["2026-06-29", 0],
    ["2026-06-30", 1],
    ["2026-12-29", 1],
    ["2026-12-30", 2],
    ["2030-01-01", 3],
  ])("through %s %d of at most three turns are due", (lastDay, count) => {
    const rule = { firstDueOn: "2026-06-30", everyMonths: 6 };
    const due = turnsThrough(rule, 0, lastDay, 3);
    expect(due.map(({ number }) => number)).toEqual([0, 1, 2].slice(0, count));
    expect(turnsThrough(rule, count, lastDay, 3 - count)).toEqual([]);
  });
});

describe("what a crew lacks on a day", () => {
  const [ann, ben] = [
    { id: "a", name: "Ann Rowe" },
    { id: "b", name: "Ben Ash" },
  ];
  const kind = { kindId: "dc", kindName: "DC work", warnDays: 60 };
  const everyone = { ...kind, askedOf: "everyone" } as const;
  const someone = { ...kind, askedOf: "someone" } as const;
  const held = (personId: string, validFrom: string, validTo: string | null): Held => ({
    ...{ personId, kindId: "dc", validFrom, validTo },
  });
  const sentences = (asked: typeof everyone | typeof someone, list: Held[], day: string) =>
    lacking([ann, ben], [asked], list, day).map((lack) => lackSentence(lack, "North crew", day));

  test.each([
    [
      "2026-02-28",
      ['Ann Rowe\'s "DC work" begins only on 2026-03-01; it is needed on 2026-02-28.'],
    ],
    ["2026-03-01", []],
    ["2026-11-30", []],
    ["2026-12-01", ['Ann Rowe\'s "DC work" ended on 2026-11-30; it is needed on 2026-12-01.']],
  ])("both days of a qualification count: %s", (day, told) => {
    const list = [held("a", "2026-03-01", "2026-11-30"), held("b", "2020-01-01", null)];
    expect(sentences(everyone, list, day)).toEqual(told);
    expect(sentences(someone, list, day)).toEqual([]);
  });

  test("of a crew in which nobody has it, the one whose ended last is named", () => {
    const list = [held("a", "2024-01-01", "2025-12-31"), held("b", "2024-01-01", "2026-06-30")];
    expect(sentences(someone, list, "2026-07-01")).toEqual([
      'Nobody in North crew holds "DC work" on 2026-07-01: Ben Ash\'s ended on 2026-06-30.',
    ]);
    expect(sentences(someone, [], "2026-07-01")).toEqual([
      'Nobody in North crew holds "DC work" on 2026-07-01.',
    ]);
    expect(sentences(everyone, [], "2026-07-01")).toEqual([
      'Ann Rowe does not hold "DC work".',
      'Ben Ash does not hold "DC work".',
    ]);
    expect(sentences(someone, [held("b", "2026-09-01", null)], "2026-07-01")).toEqual([
      'Nobody in North crew holds "DC work" on 2026-07-01: Ben Ash\'s begins only on 2026-09-01.',
    ]);
  });

  const day = fc.integer({ min: 0, max: 60 }).map((n) => dayNumber(n));
  const dayNumber = (n: number) => new Date(Date.UTC(2026, 0, 1 + n)).toISOString().slice(0, 10);
  const anyHeld = fc
    .record({
      personId: fc.constantFrom("a", "b"),
      from: day,
      days: fc.nat(20),
      open: fc.boolean(),
    })
    .map(({ personId, from, days, open }) => {
      const to = new Date(Date.parse(from) + days * 86_400_000).toISOString().slice(0, 10);
      return held(personId, from, open && days === 0 ? null : to);
    });

  test("agrees with looking at one person and one day after the other", () => {
    fc.assert(
      fc.property(fc.array(anyHeld, { maxLength: 6 }), day, (list, on) => {
        const has = (id: string, when: string) =>
          list.some(
            (one) =>
              one.personId === id &&
              Date.parse(one.validFrom) <= Date.parse(when) &&
              (one.validTo === null || Date.parse(when) <= Date.parse(one.validTo)),
          );
        const without = ["a", "b"].filter((id) => !has(id, on));
        const lacks = lacking([ann, ben], [everyone], list, on);
        expect(lacks.map(({ personId }) => personId)).toEqual(without);
        expect(lacking([ann, ben], [someone], list, on).length).toBe(without.length === 2 ? 1 : 0);
        for (const id of ["a", "b"]) {
          const own = list.filter(({ personId }) => personId === id);
          let last: string | undefined;
          let at = Date.parse(on);
          for (let steps = 0; steps < 200; steps += 1, at += 86_400_000) {
            const text = new Date(at).toISOString().slice(0, 10);
            if (!has(id, text)) break;
            last = text;
          }
          const isForGood = last !== undefined && last > "2026-06-30";
          expect(coveredUntil(own, on)).toBe(isForGood ? null : last);
        }
      }),
    );
  });

  test.each([
    ["2026-09-30", null],
    ["2026-10-01", 60],
    ["2026-11-30", 0],
    ["2026-12-01", null],
  ])("that it runs out is told from its warning days on: %s", (on, daysLeft) => {
    const list = [held("a", "2026-03-01", "2026-11-30")];
    const told = expiring([ann], [everyone], list, on).map((one) => [one.endsOn, one.daysLeft]);
    expect(told).toEqual(daysLeft === null ? [] : [["2026-11-30", daysLeft]]);
  });

  test("one renewed without a gap does not run out; with a day between it does", () => {
    const first = held("a", "2026-03-01", "2026-11-30");
    const told = (next: Held) => expiring([ann], [everyone], [first, next], "2026-11-20").length;
    expect(told(held("a", "2026-12-01", "2028-12-01"))).toBe(0);
    expect(told(held("a", "2026-12-02", "2028-12-01"))).toBe(1);
  });

  test("where someone is enough, only the one whose runs longest is told", () => {
    const list = [held("a", "2026-01-01", "2026-12-10"), held("b", "2026-01-01", "2026-12-20")];
    const told = (asked: typeof everyone | typeof someone) =>
      expiring([ann, ben], [asked], list, "2026-12-01").map(({ personName }) => personName);
    expect(told(someone)).toEqual(["Ben Ash"]);
    expect(told(everyone)).toEqual(["Ann Rowe", "Ben Ash"]);
    const forGood = [...list, held("b", "2026-01-01", null)];
    expect(expiring([ann, ben], [someone], forGood, "2026-12-01")).toEqual([]);
  });
});
