import { expect } from "vitest";
import type { TestService } from "../../support/app.ts";
import { pointers } from "../../support/reading.ts";
import { isRefused, keptAs } from "./list.ts";
import { piecesOf, tagsOf } from "./page-text.ts";
import type { RecordKind } from "./records.ts";

export interface Kept {
  id: string;
  texts: Record<string, string>;
}

interface Reply {
  status: number;
  text: string;
  type: string;
  // biome-ignore lint/suspicious/noExplicitAny: a reply is read as what the test expects of it
  body: any;
}
const JSON_TYPE = { "content-type": "application/json" };

/** What shows how the service is built, in no answer of its own. */
const INSIDE = /node_modules|\n {4}at |[pP]risma\.|\/src\/\w|invalid byte sequence|42\d\d\d:/;
const PLAIN = "Plain";

/** The tags that pages of records with plain texts have: no text may bring another one. */
export type Vocabulary = Set<string>;

export class Desk {
  readonly kept = new Map<RecordKind, Kept[]>();
  private readonly service: TestService;
  private count = 0;

  constructor(service: TestService) {
    this.service = service;
  }

  async get(url: string): Promise<Reply> {
    return this.ask({ method: "GET", url });
  }

  private async ask(asked: { method: "GET" | "POST"; url: string; payload?: string }) {
    const authorization = `Bearer ${this.service.firm.people.owner.token}`;
    const headers = { authorization, ...(asked.payload ? JSON_TYPE : {}) };
    const reply = await this.service.app.inject({ ...asked, headers });
    const type = String(reply.headers["content-type"]);
    const body = type.includes("json") ? reply.json() : {};
    return { status: reply.statusCode, text: reply.body, type, body };
  }

  private post(kind: RecordKind, texts: Record<string, string>): Promise<Reply> {
    this.count += 1;
    // Written by hand, so that a lone half stands in it as an escape (ECMA-262, 25.5.2.3).
    const body = JSON.stringify({ ...kind.rest(this.count), ...texts });
    return this.ask({ method: "POST", url: kind.to, payload: body });
  }

  /**
   * One record with the text in every field; a field that refuses it has a plain one instead.
   * None, where all of them refuse it.
   */
  async keep(kind: RecordKind, text: string): Promise<Kept | undefined> {
    const fields = Object.keys(kind.texts);
    const refused = fields.filter((field) => isRefused(text, kind.texts[field]!));
    if (refused.length > 0) {
      await this.expectRefused(kind, text, refused);
      if (refused.length === fields.length) return undefined;
    }
    const sent = fields.map((key) => [key, refused.includes(key) ? PLAIN : text] as const);
    const reply = await this.post(kind, Object.fromEntries(sent));
    expect(reply.status, reply.text.slice(0, 500)).toBe(201);
    const texts = Object.fromEntries(
      sent.map(([key, value]) => [key, keptAs(value, kind.texts[key]!)]),
    );
    expect(reply.body).toMatchObject(texts);
    const kept = { id: reply.body.id as string, texts };
    this.kept.set(kind, [...(this.kept.get(kind) ?? []), kept]);
    return kept;
  }

  private async expectRefused(kind: RecordKind, text: string, refused: string[]): Promise<void> {
    const fields = Object.keys(kind.texts);
    const reply = await this.post(kind, Object.fromEntries(fields.map((key) => [key, text])));
    expect(reply.text).not.toMatch(INSIDE);
    expect(reply.status, reply.text).toBe(422);
    expect(reply.type).toMatch(/^application\/problem\+json/);
    expect([...new Set(pointers(reply))].sort()).toEqual(
      refused.map((key) => `/body/${key}`).sort(),
    );
  }

  async expectReadBack(kind: RecordKind, { id, texts }: Kept): Promise<void> {
    if (!kind.one) return;
    const reply = await this.get(kind.one(id));
    expect(reply.status).toBe(200);
    expect(reply.body).toMatchObject(texts);
  }

  async page(kind: RecordKind, id: string): Promise<string> {
    const reply = await this.get(kind.page(id));
    expect(reply.status, reply.text.slice(0, 500)).toBe(200);
    expect(reply.type).toMatch(/^text\/html/);
    return reply.text;
  }

  /** The page holds the text as text, and no tag or attribute that plain texts do not have. */
  async expectShown(kind: RecordKind, kept: readonly Kept[], known: Vocabulary): Promise<void> {
    const page = await this.page(kind, kept[0]!.id);
    expect(page).not.toMatch(INSIDE);
    const pieces = piecesOf(page);
    const texts = kept.flatMap((one) => Object.values(one.texts));
    const missing = texts.filter((text) => !pieces.some((piece) => piece.includes(text)));
    expect(missing).toEqual([]);
    expect(tagsOf(page).filter((tag) => !known.has(tag))).toEqual([]);
  }

  async vocabulary(kind: RecordKind): Promise<Vocabulary> {
    // A second one alike has what a page says of such twins.
    await this.keep(kind, PLAIN);
    const kept = await this.keep(kind, PLAIN);
    return new Set(tagsOf(await this.page(kind, kept!.id)));
  }
}
