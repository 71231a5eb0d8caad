// A list of more rows than a page has, walked by one of the firm's roles, and what every list of
// the office has.
import { expect } from "vitest";
import type { Role } from "../../src/web/roles.ts";
import type { Client, TestService } from "./app.ts";
import { decoded, readPage as readAs, takeExport, walkList } from "./list-pages.ts";

export { decoded } from "./list-pages.ts";

/** More rows than a page has. */
export const ROWS = 45;
export const twoDigits = (index: number): string => String(index).padStart(2, "0");
/** Numbers whose order of entry is not that of any column. */
export const turned = (index: number): string => twoDigits((index * 7) % ROWS);

const by = (service: TestService, role: Role): Client => service.as(service.firm.people[role]);

export const readPage = (service: TestService, path: string, role: Role) =>
  readAs(by(service, role), path);

export const walk = (
  service: TestService,
  path: string,
  { cell, role }: { cell: RegExp; role: Role },
): Promise<string[]> => walkList(by(service, role), path, cell);

/** The rows of the export that the page links to. */
export const exported = (service: TestService, path: string, role: Role) =>
  takeExport(by(service, role), path);

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
