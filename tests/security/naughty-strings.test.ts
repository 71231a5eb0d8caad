// Strings that have broken other programs, in the free texts of our records: each is refused by
// field, or comes back as it was sent from the interface, its lists, its files and its pages. A
// record takes a share of the strings; all of them with STRING_SHARES=1.
import { parse } from "csv-parse/sync";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { firmKinds } from "./naughty-strings/firm-records.ts";
import { asCell, NAUGHTY, SHARES, shareOf } from "./naughty-strings/list.ts";
import { textsAt } from "./naughty-strings/places.ts";
import { type RecordKind, recordKinds } from "./naughty-strings/records.ts";
import { stockKinds } from "./naughty-strings/stock-records.ts";
import { Desk } from "./naughty-strings/try-string.ts";
import { workKinds } from "./naughty-strings/work-records.ts";

const KINDS = [
  ...["customer", "site", "job", "snag", "nonconformance", "message", "person"],
  ...["crew", "absence", "qualification kind", "qualification", "API key"],
  ...["firm's settings", "mail's settings", "plan", "plan document"],
  ...["instrument", "consumable", "movement", "product model", "firmware release"],
  ...["visit", "claim", "concession", "reopening", "answer", "signed answer"],
];
/** What HTML or a template knows is drawn on every kind's page, all the rest on one kind's. */
const isPlain = (text: string): boolean => !/[<>&"'`={}]/.test(text);
const DRAWN = "customer";
const TOGETHER = 6;
/** A string takes a tenth of a second or less; a second leaves room for a slow machine. */
const TIME_LIMIT = 60_000 + Math.ceil(500 / SHARES) * 1000;
let service: TestService;
let desk: Desk;
const kinds = new Map<string, RecordKind>();

beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
  desk = new Desk(service);
  const made = [
    ...(await recordKinds(service)),
    ...(await firmKinds(service)),
    ...(await stockKinds(service)),
    ...(await workKinds(service)),
  ];
  for (const kind of made) kinds.set(kind.name, kind);
}, 120_000);
afterAll(async () => {
  if (SHARES === 1) process.stdout.write(`${tally()}\n`);
  await service.stop();
});

test("there are four hundred strings or more, no two the same, and each comes to a record", () => {
  const all = NAUGHTY.flatMap(([, strings]) => strings);
  expect(new Set(all).size).toBe(all.length);
  expect(all.length).toBeGreaterThanOrEqual(400);
  expect([...kinds.keys()]).toEqual(KINDS);
  expect(new Set(KINDS.flatMap((_, place) => shareOf(place)))).toEqual(new Set(all));
});

describe.each(KINDS.map((name, place) => [name, place] as const))(
  "in the texts of a %s",
  (name, place) => {
    test(
      "each string is refused by field, or kept and shown as sent",
      async () => {
        const kind = kinds.get(name)!;
        const known = await desk.vocabulary(kind);
        const faults: string[] = [];
        const tryOne = async (text: string): Promise<void> => {
          try {
            const kept = await desk.keep(kind, text);
            if (!kept) return;
            await desk.expectReadBack(kind, kept);
            if (!kind.sharesPage && (name === DRAWN || !isPlain(text)))
              await desk.expectShown(kind, [kept], known);
          } catch (error) {
            faults.push(`${JSON.stringify(text.slice(0, 60))}: ${(error as Error).message}`);
          }
        };
        const strings = shareOf(place);
        const together = kind.alone ? 1 : TOGETHER;
        for (let at = 0; at < strings.length; at += together) {
          const before = desk.kept.get(kind)!.length;
          await Promise.all(strings.slice(at, at + together).map(tryOne));
          const kept = desk.kept.get(kind)!.slice(before);
          if (kind.sharesPage && kept.length > 0) await desk.expectShown(kind, kept, known);
        }
        expect(faults).toEqual([]);
        expect(desk.kept.get(kind)!.length).toBeGreaterThan(strings.length / 2);
      },
      TIME_LIMIT,
    );

    test("the list gives all of them as they were sent", async () => {
      const kind = kinds.get(name)!;
      if (!kind.list) return;
      const places = Object.keys(kind.texts);
      const listed: { id: string; texts: object }[] = [];
      for (let url = `${kind.list}?limit=200`; url; ) {
        const reply = await desk.get(url, kind.by);
        expect(reply.status, reply.text).toBe(200);
        for (const item of reply.body.items) {
          const texts = textsAt(kind.reads?.item?.(item) ?? item, places);
          listed.push({ id: kind.namesItself === false ? "" : item.id, texts });
        }
        const { pagesBy = "cursor" } = kind;
        const next = reply.body.next && `&${pagesBy}=${reply.body.next}`;
        url = next ? `${kind.list}?limit=200${next}` : "";
      }
      expect(listed).toEqual(expect.arrayContaining(desk.kept.get(kind)!));
    });
  },
);

const IN_CSV = ["customer", "site", "job", "snag", "nonconformance", "person", "crew", "absence"];

test.each([...IN_CSV, "qualification", "consumable", "plan", "product model"])(
  "the CSV of every %s has the texts as cells that no spreadsheet runs",
  async (name) => {
    const kind = kinds.get(name)!;
    const reply = await desk.get(`/api/v1/exports/${kind.csv}.csv`);
    expect(reply.status).toBe(200);
    const rows = parse(reply.text, { bom: true, columns: true }) as Record<string, string>[];
    const fields = Object.keys(kind.texts).filter((key) => key in rows[0]!);
    expect(fields.length).toBeGreaterThan(0);
    const line = (row: Record<string, string>) => JSON.stringify(fields.map((key) => row[key]));
    const lines = new Map<string, number>();
    for (const row of rows) lines.set(line(row), (lines.get(line(row)) ?? 0) + 1);
    const missing = desk.kept.get(kind)!.filter(({ texts }) => {
      const cells = Object.entries(texts).map(([key, text]) => [key, asCell(text)]);
      const key = line(Object.fromEntries(cells));
      const left = lines.get(key) ?? 0;
      lines.set(key, left - 1);
      return left < 1;
    });
    expect(missing).toEqual([]);
  },
);

function tally(): string {
  const rows = [...kinds].map(([name, kind]) => {
    const of = (counts: Map<RecordKind, number>) => counts.get(kind) ?? 0;
    const kept = desk.kept.get(kind)?.length ?? 0;
    return `${name}: ${kept} kept, ${of(desk.refused)} refused, ${of(desk.doubled)} there already`;
  });
  return `naughty strings, ${shareOf(0).length} to each record\n${rows.join("\n")}`;
}
