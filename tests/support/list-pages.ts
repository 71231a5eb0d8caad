// A list page as somebody reads it: page by page, and with its export.
import { parse } from "csv-parse/sync";
import { expect } from "vitest";
import type { Client } from "./app.ts";

/** `&` and `=` as the pages write them, read back. */
export const decoded = (text: string): string =>
  text.replaceAll("&amp;", "&").replaceAll("&#x3D;", "=");

export const readPage = (client: Client, path: string) =>
  client.get(path.replace(/#.*$/, "")).set("accept", "text/html");

/** What the cells of the list's rows match, over all its pages. */
export async function walkList(client: Client, path: string, cell: RegExp): Promise<string[]> {
  const found: string[] = [];
  for (let at: string | undefined = path; at; ) {
    const page = await readPage(client, at);
    expect(page.status, at).toBe(200);
    found.push(...[...page.text.matchAll(cell)].map(([, text = ""]) => text));
    at = /<a class="button" href="([^"]+)" rel="next">/.exec(page.text)?.[1];
    at = at && decoded(at);
  }
  return found;
}

/** Where the heads of the columns lead, and by which column. */
export async function heads(
  client: Client,
  path: string,
): Promise<{ href: string; sort: string }[]> {
  const page = await readPage(client, path);
  return [...page.text.matchAll(/<a class="sort" href="([^"]+)"/g)].map(([, written = ""]) => {
    const href = decoded(written);
    const sort = new URL(href, "http://here").searchParams.get("sort") ?? "";
    return { href, sort: sort.replace(/^-/, "") };
  });
}

/** The rows of the export that the page leads to. */
export async function takeExport(client: Client, path: string): Promise<Record<string, string>[]> {
  const page = await readPage(client, path);
  const href = /class="export" href="([^"]+)" download>Export as CSV</.exec(page.text)?.[1];
  const taken = await client.get(decoded(href ?? ""));
  expect(taken.status, `${href} ${taken.text}`).toBe(200);
  return parse(taken.text, { columns: true, bom: true });
}
