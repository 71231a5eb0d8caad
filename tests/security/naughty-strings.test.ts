// Strings that have broken other programs, in the free texts of our records: each is refused by
// field, or comes back as it was sent from the interface, its lists, its files and its pages.
import { parse } from "csv-parse/sync";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { addJobRows } from "../support/rows.ts";
import { SMALL_PLAN } from "../support/work-rows.ts";
import { asCell, NAUGHTY } from "./naughty-strings/list.ts";
import { type RecordKind, recordKinds } from "./naughty-strings/records.ts";
import { Desk, type Vocabulary } from "./naughty-strings/try-string.ts";

const KINDS = ["customer", "site", "job", "snag", "nonconformance", "message", "person"];
/** What HTML or a template knows is drawn on every kind's page, all the rest on one kind's. */
const isPlain = (text: string): boolean => !/[<>&"'`={}]/.test(text);
const DRAWN = "customer";
const TOGETHER = 6;
let service: TestService;
let desk: Desk;
const kinds = new Map<string, RecordKind>();
const vocabularies = new Map<string, Vocabulary>();

beforeAll(async () => {
  service = await startService();
  desk = new Desk(service);
  const rows = await addJobRows(service, SMALL_PLAN);
  const { customerId } = await inFirm(service.db, service.firm.firmId, (tx) =>
    tx.site.findFirstOrThrow({ where: { id: rows.siteId } }),
  );
  for (const kind of recordKinds(rows, customerId)) {
    kinds.set(kind.name, kind);
    vocabularies.set(kind.name, await desk.vocabulary(kind));
  }
});
afterAll(async () => service.stop());

test("there are three hundred strings or more, no two the same", () => {
  const all = NAUGHTY.flatMap(([, strings]) => strings);
  expect(new Set(all).size).toBe(all.length);
  expect(all.length).toBeGreaterThanOrEqual(300);
  expect([...kinds.keys()]).toEqual(KINDS);
});

describe.each(KINDS)("in the texts of a %s", (name) => {
  test.each(NAUGHTY)("%s are refused by field, or kept and shown as sent", async (_of, strings) => {
    const kind = kinds.get(name)!;
    const faults: string[] = [];
    const known = vocabularies.get(name)!;
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
    for (let at = 0; at < strings.length; at += TOGETHER) {
      const before = desk.kept.get(kind)!.length;
      await Promise.all(strings.slice(at, at + TOGETHER).map(tryOne));
      const kept = desk.kept.get(kind)!.slice(before);
      if (kind.sharesPage && kept.length > 0) await desk.expectShown(kind, kept, known);
    }
    expect(faults).toEqual([]);
  });

  test("the list gives all of them as they were sent", async () => {
    const kind = kinds.get(name)!;
    const listed = new Map<string, object>();
    for (let url = `${kind.list}?limit=200`; url; ) {
      const reply = await desk.get(url);
      expect(reply.status).toBe(200);
      for (const item of reply.body.items) listed.set(item.id, item);
      url = reply.body.next ? `${kind.list}?limit=200&cursor=${reply.body.next}` : "";
    }
    const kept = desk.kept.get(kind)!;
    expect(kept.length).toBeGreaterThanOrEqual(250);
    for (const { id, texts } of kept) expect(listed.get(id)).toMatchObject(texts);
  });
});

test.each(KINDS.filter((name) => name !== "message"))(
  "the CSV of every %s has the texts as cells that no spreadsheet runs",
  async (name) => {
    const kind = kinds.get(name)!;
    const reply = await desk.get(`/api/v1/exports/${kind.csv}.csv`);
    expect(reply.status).toBe(200);
    const rows = parse(reply.text, { bom: true, columns: true }) as Record<string, string>[];
    const fields = Object.keys(kind.texts);
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
