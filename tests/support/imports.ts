// Files sent in as a program would: begun, sent, tried, confirmed.
import { expect } from "vitest";
import type { Client, TestService } from "./app.ts";

export interface TriedImport {
  id: string;
  state: string;
  figures: Record<string, number>;
  columns: (string | null)[];
  problem: string | null;
  [name: string]: unknown;
}

export const office = (service: TestService): Client => service.as(service.firm.people.office);

export async function sendFile(
  client: Client,
  kind: string,
  content: string | Buffer,
): Promise<TriedImport> {
  const begun = await client.post("/api/v1/imports").send({ kind, fileName: `${kind}.csv` });
  expect(begun.status, JSON.stringify(begun.body)).toBe(201);
  const sent = await client
    .put(`/api/v1/imports/${begun.body.id}/file`)
    .set("content-type", "text/csv")
    .send(content);
  expect(sent.status, JSON.stringify(sent.body)).toBe(200);
  return sent.body;
}

/** As the file stands once nothing works on it any more. */
export async function settled(client: Client, id: string): Promise<TriedImport> {
  for (;;) {
    const { body } = await client.get(`/api/v1/imports/${id}`);
    if (body.state !== "checking" && body.state !== "importing") return body;
    await new Promise((resolve) => setTimeout(resolve, 15));
  }
}

export async function tryFile(
  client: Client,
  kind: string,
  content: string | Buffer,
  wish: object = {},
): Promise<TriedImport> {
  const { id } = await sendFile(client, kind, content);
  const tried = await client.post(`/api/v1/imports/${id}/dry-run`).send(wish);
  expect(tried.status, JSON.stringify(tried.body)).toBe(202);
  return settled(client, id);
}

export async function confirm(
  client: Client,
  id: string,
  badRows: "refuse" | "leave" = "refuse",
): Promise<TriedImport> {
  const reply = await client.post(`/api/v1/imports/${id}/confirmation`).send({ badRows });
  expect(reply.status, JSON.stringify(reply.body)).toBe(202);
  return settled(client, id);
}

/** Tried and imported, with no bad row. */
export async function importFile(
  client: Client,
  kind: string,
  content: string | Buffer,
  wish: object = {},
): Promise<TriedImport> {
  const tried = await tryFile(client, kind, content, wish);
  expect(tried.problem).toBeNull();
  const bad = await client.get(`/api/v1/imports/${tried.id}/bad-rows`);
  expect(bad.body.items).toEqual([]);
  return confirm(client, tried.id);
}

export async function badRowsOf(
  client: Client,
  id: string,
): Promise<{ line: number; reason: string; cells: string[] }[]> {
  const { body } = await client.get(`/api/v1/imports/${id}/bad-rows?limit=200`);
  return body.items;
}
