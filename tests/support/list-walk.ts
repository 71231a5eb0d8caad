// Lists of pages, walked from page to page by their own links.
import { parse } from "csv-parse/sync";
import { expect } from "vitest";
import type { Role } from "../../src/web/roles.ts";
import type { TestService } from "./app.ts";

/** More rows than a page has. */
export const ROWS = 45;
export const twoDigits = (index: number): string => String(index).padStart(2, "0");
/** Numbers whose order of entry is not that of any column. */
export const turned = (index: number): string => twoDigits((index * 7) % ROWS);

export const decoded = (text: string): string =>
  text.replaceAll("&amp;", "&").replaceAll("&#x3D;", "=");

export const readPage = (service: TestService, path: string, role: Role) =>
  service.as(service.firm.people[role]).get(path.replace(/#.*$/, "")).set("accept", "text/html");

/** What the cells of the list's rows match, over all its pages. */
export async function walk(
  service: TestService,
  path: string,
  { cell, role }: { cell: RegExp; role: Role },
): Promise<string[]> {
  const found: string[] = [];
  for (let at: string | undefined = path; at; ) {
    const page = await readPage(service, at, role);
    expect(page.status, at).toBe(200);
    found.push(...[...page.text.matchAll(cell)].map(([, text = ""]) => text));
    at = /<a class="button" href="([^"]+)" rel="next">/.exec(page.text)?.[1];
    at = at && decoded(at);
  }
  return found;
}

/** The rows of the export that the page links to. */
export async function exported(
  service: TestService,
  path: string,
  role: Role,
): Promise<Record<string, string>[]> {
  const { text } = await readPage(service, path, role);
  const href = /class="export" href="([^"]+)" download>Export as CSV</.exec(text)?.[1];
  const taken = await readPage(service, decoded(href ?? ""), role);
  expect(taken.status, `${href} ${taken.text}`).toBe(200);
  return parse(taken.text, { columns: true, bom: true });
}

export interface WalkedList {
  path: string;
  role: Role;
  column: string;
  cell: RegExp;
  filter: string;
  /** Rows that the filter leaves. */
  left: number;
}

/** Expects of a list with `ROWS` rows what every list of the office has. */
export async function expectList(service: TestService, list: WalkedList): Promise<void> {
  const { path, role, column, cell, filter } = list;
  const asked = { cell, role };
  const up = await walk(service, `${path}?sort=${column}`, asked);
  expect(up).toHaveLength(ROWS);
  expect(new Set(up).size).toBe(ROWS);
  expect(up).toEqual(up.toSorted());
  expect(await walk(service, `${path}?sort=-${column}`, asked)).toEqual(up.toReversed());
  expect(await walk(service, `${path}?${filter}`, asked)).toHaveLength(list.left);
  expect(await exported(service, `${path}?${filter}`, role)).toHaveLength(list.left);
  const { text } = await readPage(service, `${path}?sort=${column}`, role);
  const head = /<th scope="col"[^>]* aria-sort="ascending"><a class="sort" href="([^"]+)"/;
  expect(decoded(head.exec(text)?.[1] ?? "")).toContain(`sort=-${column}`);
}
