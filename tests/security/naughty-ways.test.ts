// Strings that have broken other programs, on the other ways in: forms of pages, and files of rows.
import { stringify } from "csv-stringify/sync";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type FirmTransaction, inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { confirm, office, tryFile } from "../support/imports.ts";
import { addJobRows } from "../support/rows.ts";
import { SMALL_PLAN } from "../support/work-rows.ts";
import { isRefused, keptAs, NAUGHTY, type Rule, SHARES, shareOf } from "./naughty-strings/list.ts";
import { piecesOf } from "./naughty-strings/page-text.ts";
import { line, lines } from "./naughty-strings/records.ts";

const TIME_LIMIT = 60_000 + Math.ceil(500 / SHARES) * 1000;
let service: TestService;
let jobId: string;
beforeAll(async () => {
  service = await startService({
    now: () => new Date("2026-11-25T17:00:00Z"),
  });
  ({ jobId } = await addJobRows(service, SMALL_PLAN));
});
afterAll(() => service.stop());

const owner = () => service.as(service.firm.people.owner);
const get = async (path: string) => (await owner().get(path)).body;
const LAST = { orderBy: { id: "desc" } } as const;
const inOwnFirm = <T>(work: (tx: FirmTransaction) => Promise<T>): Promise<T> =>
  inFirm(service.db, service.firm.firmId, work);

interface Form {
  path: () => string;
  rest: Record<string, string>;
  field: string;
  rule: Rule;
  /** What the form takes of a field at all, blanks around it counted. */
  most: number;
  /** What is kept of what was sent, by the address that the form leads to. */
  read: (location: string) => Promise<string | null>;
}

const FORMS: Record<string, Form> = {
  "a customer's name": {
    ...{ path: () => "/customers", rest: {}, field: "name", rule: line(120), most: 5000 },
    read: async (location) => (await get(`/api/v1${location}`)).name,
  },
  "a customer's note": {
    ...{ path: () => "/customers", rest: { name: "Kim" }, field: "note", most: 5000 },
    rule: { ...lines(4000), asTyped: true },
    read: async (location) => (await get(`/api/v1${location}`)).note,
  },
  "a snag's title": {
    ...{
      path: () => `/jobs/${jobId}/snags`,
      rest: {},
      field: "title",
      rule: line(160),
      most: 64_000,
    },
    read: () => inOwnFirm(async (tx) => (await tx.snag.findFirstOrThrow(LAST)).title),
  },
  "a message": {
    ...{
      path: () => `/jobs/${jobId}/messages`,
      rest: {},
      field: "text",
      rule: lines(2000),
      most: 64_000,
    },
    read: () => inOwnFirm(async (tx) => (await tx.jobMessage.findFirstOrThrow(LAST)).text),
  },
};

/** As a browser sends it: whole characters, each line end as CRLF. */
const typedOf = (text: string): string => text.toWellFormed().replaceAll(/\r\n|\r|\n/g, "\n");

describe.each(Object.entries(FORMS).map(([name, form], place) => [name, form, place] as const))(
  "as %s in a form",
  (_name, form, place) => {
    test(
      "each string is refused and shown again, or kept as it was typed",
      async () => {
        for (const text of shareOf(place + 4)) {
          const typed = typedOf(text);
          const reply = await owner()
            .post(form.path())
            .type("form")
            .set("accept", "text/html")
            .send({ ...form.rest, [form.field]: typed.replaceAll("\n", "\r\n") });
          const what = JSON.stringify(text.slice(0, 60));
          if (typed !== "" && (isRefused(typed, form.rule) || typed.length > form.most)) {
            expect(typed.length > 60_000 ? [413, 422] : [422], what).toContain(reply.status);
            // What no field of ours takes is not shown again.
            if (typed.length > 5000) continue;
            const pieces = piecesOf(reply.text);
            expect(
              pieces.some((piece) => piece.includes(typed.trim())),
              what,
            ).toBe(true);
          } else if (typed !== "") {
            expect(reply.status, `${what} ${reply.text.slice(0, 300)}`).toBe(303);
            const kept = await form.read(reply.headers.location!);
            expect(kept, what).toBe(keptAs(typed, form.rule));
          }
        }
      },
      TIME_LIMIT,
    );
  },
);

describe.each([
  ["name", line(120)],
  ["note", lines(4000)],
] as const)("as a customer's %s in a file of rows", (field, rule) => {
  test("each string makes a bad row, or is imported as it stands", async () => {
    const strings = NAUGHTY.flatMap(([, all]) => all).map((text) => text.toWellFormed());
    const rows = strings.map((text, at) => {
      const own = { reference: `${field}-${at}`, name: "Kim", note: "-" };
      return { ...own, [field]: text };
    });
    const client = office(service);
    const tried = await tryFile(client, "customers", stringify(rows, { header: true }));
    const isBad = (text: string) =>
      isRefused(cellText(text), rule) && (field === "name" || cellText(text) !== "");
    const bad = strings.filter(isBad);
    expect([tried.state, tried.problem]).toEqual(["checked", null]);
    expect(tried.figures.bad).toBe(bad.length);
    const done = await confirm(client, tried.id, "leave");
    expect(done.state).toBe("imported");
    const kept = await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.customer.findMany({ where: { reference: { startsWith: `${field}-` } } }),
    );
    const byReference = new Map(kept.map((row) => [row.reference, row[field]]));
    const expected = strings.flatMap((text, at) =>
      isBad(text) ? [] : [[`${field}-${at}`, keptAs(cellText(text), rule) || null] as const],
    );
    expect(byReference).toEqual(new Map(expected));
  });
});

/** An apostrophe that defuses a formula is none of the text (OWASP, "CSV Injection"). */
const cellText = (text: string): string =>
  text.replace(/^'(?=[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20])/, "").trim();

test("what cannot be stored is refused in a file's heads, shown in its first cells", async () => {
  const long = `${"x".repeat(79)}\u{1f600}y`;
  const rows = [
    ["name", "left out", "long"],
    ["Larch", "a\u0000b", long],
  ];
  const client = office(service);
  await expect(tryFile(client, "customers", "name,le\u0000ft out\nLarch,a\n")).rejects.toThrow(
    /names holds the character U\+0000/,
  );
  const tried = await tryFile(client, "customers", stringify(rows));
  expect([tried.state, tried.figures]).toMatchObject(["checked", { new: 1, bad: 0 }]);
  expect(tried.headers).toEqual(["name", "left out", "long"]);
  expect((await confirm(client, tried.id)).state).toBe("imported");
});
