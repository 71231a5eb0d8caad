// Waiting between two items: elapsed time by RFC 3339 instants; the waits are common practice, no
// source. Clocks change in Europe/London on 2026-10-25 at 01:00 UTC and 2026-03-29 at 01:00 UTC
// (IANA time zone database).
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, verdictIn } from "./judged.ts";

const done = { done: true };
const isolate: Draft = { id: "isolate", kind: "confirm", title: "Isolate" };
const prove: Draft = { id: "prove", kind: "confirm" };
const plan = (dwell: Draft, more: Draft = {}) =>
  planOf([
    { ...isolate, ...more },
    { ...prove, ...more, dwell: { after: "isolate", ...dwell } },
  ]);

const at = (itemId: string, takenAt: string, more: Partial<Answer> = {}): Answer =>
  answerAt(itemId === "isolate" ? 1 : 2, itemId, done, { takenAt, ...more });

const codeAfter = (dwell: Draft, isolatedAt: string, provedAt: string): string =>
  verdictIn(plan(dwell), "prove", [at("isolate", isolatedAt), at("prove", provedAt)]).code;

describe("on the boundary is in", () => {
  test.each([
    [{ atLeastS: 300 }, "09:04:59.999", "too-soon"],
    [{ atLeastS: 300 }, "09:05:00", "passed"],
    [{ atLeastS: 300 }, "09:05:00.001", "passed"],
    [{ atLeastS: 0, atMostS: 300 }, "09:04:59.999", "passed"],
    [{ atLeastS: 0, atMostS: 300 }, "09:05:00", "passed"],
    [{ atLeastS: 0, atMostS: 300 }, "09:05:00.001", "too-late"],
    [{ atLeastS: 0 }, "09:00:00", "passed"],
    [{ atLeastS: 0, atMostS: 0 }, "09:00:00", "passed"],
    [{ atLeastS: 0, atMostS: 0 }, "09:00:00.001", "too-late"],
    [{ atLeastS: 300, atMostS: 300 }, "09:05:00", "passed"],
  ])("%o after 09:00:00, at %s: %s", (dwell, time, code) => {
    expect(codeAfter(dwell, "2026-11-25T09:00:00Z", `2026-11-25T${time}Z`)).toBe(code);
  });
});

describe("instants are compared, not what clocks show", () => {
  test.each([
    [
      "clocks put back between: 01:50+01:00 to 01:10+00:00",
      "2026-10-25T01:50:00+01:00",
      "2026-10-25T01:10:00+00:00",
    ],
    [
      "clocks put forward between: 00:55 to 02:15+01:00",
      "2026-03-29T00:55:00+00:00",
      "2026-03-29T02:15:00+01:00",
    ],
    ["two zones", "2026-11-25T23:55:00-11:00", "2026-11-26T21:15:00+10:00"],
  ])("%s are 20 minutes", (_what, first, second) => {
    expect(codeAfter({ atLeastS: 1200, atMostS: 1200 }, first, second)).toBe("passed");
    expect(codeAfter({ atLeastS: 1201 }, first, second)).toBe("too-soon");
    expect(codeAfter({ atLeastS: 0, atMostS: 1199 }, first, second)).toBe("too-late");
  });
});

describe("says how long it was and when it could be taken", () => {
  test("too soon", () => {
    const answers = [at("isolate", "2026-10-25T00:58:00Z"), at("prove", "2026-10-25T01:02:59Z")];
    expect(verdictIn(plan({ atLeastS: 300 }), "prove", answers)).toMatchObject({
      ...{ outcome: "out-of-sequence", code: "too-soon", clears: false },
      sentence:
        'Confirmed. Taken 4 min 59 s after "Isolate" was met; ' +
        "needed at least 5 min, so from 2026-10-25 01:03:00 (UTC) on.",
      toClear: "Do this again once 5 min have passed.",
    });
  });

  test("too late, in the site's summer time", () => {
    const answers = [at("isolate", "2026-07-01T08:00:00Z"), at("prove", "2026-07-01T10:00:01Z")];
    const verdict = verdictIn(plan({ atLeastS: 0, atMostS: 7200 }), "prove", answers);
    expect(verdict).toMatchObject({
      ...{ outcome: "out-of-sequence", code: "too-late", clears: false },
      sentence:
        'Confirmed. Taken 2 h 1 s after "Isolate" was met; ' +
        "needed at most 2 h, so until 2026-07-01 11:00:00 (UTC+1).",
      toClear: 'Do "Isolate" again, then this within 2 h.',
    });
  });

  test("with offsets of half an hour and west of Greenwich", () => {
    const site = (timeZone: string) =>
      contextOf({ site: { supply: "TT", region: "uk", country: "GB", timeZone } });
    const answers = [at("isolate", "2026-01-01T08:00:00Z"), at("prove", "2026-01-01T08:00:01Z")];
    const said = (zone: string) =>
      verdictIn(plan({ atLeastS: 60 }), "prove", answers, site(zone)).sentence;
    expect(said("America/St_Johns")).toContain("2026-01-01 04:31:00 (UTC−3:30)");
    expect(said("Asia/Kolkata")).toContain("2026-01-01 13:31:00 (UTC+5:30)");
  });

  test("and only marks it where the plan says so", () => {
    const marked = planOf([
      isolate,
      { ...prove, sequence: "mark", dwell: { after: "isolate", atLeastS: 300 } },
    ]);
    const answers = [answerAt(1, "isolate", done), answerAt(2, "prove", done)];
    expect(verdictIn(marked, "prove", answers)).toMatchObject({ code: "too-soon", clears: true });
  });
});

describe("counts from the answer that met the other item", () => {
  test("which must be met before at all", () => {
    expect(verdictIn(plan({ atLeastS: 0 }), "prove", [answerAt(2, "prove", done)]).code).toBe(
      "out-of-sequence",
    );
  });

  test("the last one before, where it was done twice", () => {
    const answers = [
      answerAt(1, "isolate", done),
      answerAt(7, "isolate", done),
      answerAt(10, "prove", done),
    ];
    expect(verdictIn(plan({ atLeastS: 300 }), "prove", answers).code).toBe("too-soon");
    expect(verdictIn(plan({ atLeastS: 0, atMostS: 300 }), "prove", answers).code).toBe("passed");
  });

  test("and from nothing where it did not apply, or was released without an answer", () => {
    const answers = [answerAt(10, "prove", done)];
    const concessions = [{ id: "c", itemId: "isolate", subject: "", grantedBy: "person-2" }];
    const context = contextOf({ concessions });
    expect(verdictIn(plan({ atLeastS: 300 }), "prove", answers, context).code).toBe("passed");
    const never = planOf([
      { ...isolate, appliesWhen: 'site.supply == "IT"' },
      { ...prove, dwell: { after: "isolate", atLeastS: 300 } },
    ]);
    const both = [answerAt(9, "isolate", done), ...answers];
    expect(verdictIn(never, "prove", both).code).toBe("passed");
  });

  test("from a failing one that was released", () => {
    const concessions = [{ id: "c", itemId: "isolate", subject: "", grantedBy: "person-2" }];
    const answers = [answerAt(9, "isolate", { done: false }), answerAt(10, "prove", done)];
    const context = contextOf({ concessions });
    expect(verdictIn(plan({ atLeastS: 300 }), "prove", answers, context).code).toBe("too-soon");
  });
});

describe("of several units", () => {
  const perPack = { repeat: { per: "unit", ofKind: "battery-pack" } };
  const both = [
    answerAt(1, "isolate", done, { subject: "pack-1" }),
    answerAt(6, "isolate", done, { subject: "pack-2" }),
  ];

  test("each waits for its own", () => {
    const answers = [
      ...both,
      answerAt(7, "prove", done, { subject: "pack-1" }),
      answerAt(7, "prove", done, { subject: "pack-2" }),
    ];
    const each = plan({ atLeastS: 300, atMostS: 600 }, perPack);
    const codeOf = (subject: string) =>
      verdictIn(each, "prove", answers, contextOf(), subject).code;
    expect([codeOf("pack-1"), codeOf("pack-2")]).toEqual(["passed", "too-soon"]);
  });

  const once = (dwell: Draft) =>
    planOf([
      { ...isolate, ...perPack },
      { ...prove, dwell: { after: "isolate", ...dwell } },
    ]);

  test.each<[string, number, number, Draft, string]>([
    ["too late after the first, done second", 6, 1, { atLeastS: 0, atMostS: 60 }, "KH00002"],
    ["too late after the first, done first", 1, 6, { atLeastS: 0, atMostS: 60 }, "KH00001"],
    ["too late after both at once", 6, 6, { atLeastS: 0, atMostS: 60 }, "KH00001"],
    ["too soon after the last, done second", 1, 6, { atLeastS: 600 }, "KH00002"],
    ["too soon after the last, done first", 6, 1, { atLeastS: 600 }, "KH00001"],
    ["too soon after both at once", 6, 6, { atLeastS: 600 }, "KH00001"],
  ])("the unit is named that makes it %s", (_what, first, second, dwell, serial) => {
    const answers = [
      answerAt(first, "isolate", done, { subject: "pack-1" }),
      answerAt(second, "isolate", done, { subject: "pack-2" }),
      answerAt(10, "prove", done),
    ];
    const { sentence } = verdictIn(once(dwell), "prove", answers);
    expect(sentence).toContain(`after "Isolate" (KESTREL-5 ${serial}) was met; needed`);
  });

  test.each([
    [{ atLeastS: 240 }, 10, "passed"],
    [{ atLeastS: 241 }, 10, "too-soon"],
    [{ atLeastS: 0, atMostS: 540 }, 10, "passed"],
    [{ atLeastS: 0, atMostS: 539 }, 10, "too-late"],
  ])(
    "what is asked once waits for the last, and not too long for the first: %o",
    (dwell, minute, code) => {
      const answers = [...both, answerAt(minute, "prove", done)];
      expect(verdictIn(once(dwell), "prove", answers).code).toBe(code);
    },
  );
});
