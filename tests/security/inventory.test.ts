// Every table of the database has its class, and every use of cryptography its row, in
// docs/security.md (OWASP ASVS 5.0.0, V11.1 and V14.1).
import { dirname } from "node:path";
import { describe, expect, test } from "vitest";
import { readProjectFiles } from "../tidy/project-files.ts";
import { cryptographyUsed } from "./security-page/cryptography-used.ts";
import { quoted, tableRows } from "./security-page/page-tables.ts";

const files = readProjectFiles(dirname(dirname(import.meta.dirname)));

describe("cryptography", () => {
  const used = cryptographyUsed(files);
  const rows = tableRows("Cryptography").map((cells) => ({
    purpose: cells[0]!,
    algorithms: cells[1]!.split(", ").sort(),
    places: quoted(cells[4]!),
  }));
  const rowOf = (path: string) =>
    rows.filter(({ places }) =>
      places.some((place) => (place.endsWith("/") ? path.startsWith(place) : path === place)),
    );

  test("is in the inventory once, wherever the code calls it", () => {
    expect(used.length).toBeGreaterThan(50);
    const strays = used.filter(({ path }) => rowOf(path).length !== 1);
    expect(strays.map(({ path }) => [path, rowOf(path).length])).toEqual([]);
  });

  test.each(rows)("for $purpose is by the algorithms that the code names", (row) => {
    const own = used.filter(({ path }) => rowOf(path).includes(row));
    const named = new Set(own.flatMap(({ algorithms }) => algorithms));
    expect([...named].sort()).toEqual(row.algorithms);
    for (const place of row.places) {
      expect(
        own.some(({ path }) => path.startsWith(place)),
        place,
      ).toBe(true);
    }
  });
});

describe("data", () => {
  const classes = tableRows("Data, by how sensitive it is");
  const described = classes.filter((cells) => cells.length === 4).map(([name]) => name!);
  const listed = classes.filter((cells) => cells.length === 2);
  const schema = files.find(({ path }) => path === "prisma/schema.prisma")!.text;
  const models = [...schema.matchAll(/^model \w+ \{\n([\s\S]*?)^\}/gm)].map(([, body]) => ({
    table: /@@map\("(\w+)"\)/.exec(body!)![1]!,
    columns: [...body!.matchAll(/^ +(\w+) +(?:String|Bytes)\b.*?(?:@map\("(\w+)"\)|$)/gm)].map(
      ([, field, column]) => column ?? field!,
    ),
  }));

  test("has a class for every table, and each class its protection and its time", () => {
    expect(listed.map(([name]) => name)).toEqual(described);
    const tables = listed.flatMap(([, cell]) => quoted(cell!));
    expect(tables.toSorted()).toEqual(models.map(({ table }) => table).sort());
    for (const cells of classes) for (const cell of cells) expect(cell).not.toBe("");
  });

  test("that opens something is in the class of secrets", () => {
    const secrets = quoted(listed.find(([name]) => name === "secrets")![1]!);
    const opening = models.filter(({ columns }) =>
      columns.some((column) => /secret|sealed|password|recovery/.test(column)),
    );
    expect(opening.length).toBeGreaterThan(5);
    expect(opening.map(({ table }) => table).filter((table) => !secrets.includes(table))).toEqual(
      [],
    );
  });

  test("that says who somebody is or where is not among the firm's business", () => {
    const work = quoted(listed.find(([name]) => name === "work")![1]!);
    const personal = models.filter(({ columns }) =>
      columns.some((column) => /^(?:email|phone|address_line|recipient|postcode)$/.test(column)),
    );
    expect(personal.length).toBeGreaterThan(2);
    // What stands on the firm's own papers.
    expect(personal.map(({ table }) => table).filter((table) => work.includes(table))).toEqual([
      "branding",
    ]);
  });
});
