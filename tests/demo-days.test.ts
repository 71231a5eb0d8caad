// The scenario counts its dates from the day it is loaded on, so it must hold on every day.
import { Temporal } from "temporal-polyfill";
import { describe, expect, test } from "vitest";
import { workingDay } from "../src/demo/calendar.ts";
import { carriedInstruments, instrumentsOn } from "../src/demo/instrument-sets.ts";
import { KINDS } from "../src/demo/tables/instruments.ts";
import { JOBS } from "../src/demo/tables/jobs.ts";
import { SITES } from "../src/demo/tables/sites.ts";
import { TOWNS } from "../src/demo/tables/towns.ts";

describe("on any day", () => {
  const days = Array.from({ length: 800 }, (_, index) =>
    Temporal.PlainDate.from("2026-01-01").add({ days: index }),
  );

  test("no crew is wanted in two places at once", () => {
    for (const today of days) {
      const spans = JOBS.flatMap(({ crew, visits, site, end }) => {
        const timeZone = TOWNS[SITES.find(({ key }) => key === site)!.town].timeZone;
        return visits.map(({ day, from, to }) => ({
          crew,
          zone: timeZone,
          place: `${workingDay(today, day)} ${end === "cancelled" ? "cancelled" : ""}`,
          from,
          to,
        }));
      });
      for (const list of Map.groupBy(spans, ({ crew, place }) => `${crew} ${place}`).values()) {
        expect(new Set(list.map(({ zone }) => zone)).size).toBe(1);
        const ordered = list.toSorted((a, b) => (a.from < b.from ? -1 : 1));
        for (const [index, later] of ordered.slice(1).entries()) {
          expect(later.from >= ordered[index]!.to, `${today} ${later.crew}`).toBe(true);
        }
      }
    }
  });

  test("one instrument is out of calibration, and each crew has all classes in date", () => {
    for (const today of days.filter((_day, index) => index % 13 === 0)) {
      const late = carriedInstruments(today).filter(
        ({ calibratedOn }) =>
          Temporal.PlainDate.from(calibratedOn[2]).add({ months: 12 }).toString() <
          today.toString(),
      );
      expect(late.map(({ reference }) => reference)).toEqual(["TW-02"]);
      for (const { work, crew } of JOBS) {
        if (!work) continue;
        const used = instrumentsOn(workingDay(today, work.day), crew, today);
        expect([...used.keys()].sort()).toEqual(KINDS.map((kind) => kind.instrumentClass).sort());
      }
    }
  });
});
