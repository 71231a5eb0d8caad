import { expect } from "vitest";
import type { TestService } from "../../support/app.ts";
import { pointers } from "../../support/reading.ts";
import { isRefused, keptAs } from "./list.ts";
import { piecesOf, tagsOf } from "./page-text.ts";
import { textsAt, withTexts } from "./places.ts";
import type { Read, RecordKind } from "./records.ts";

export interface Kept {
  id: string;
  texts: Record<string, string>;
}

interface Reply {
  status: number;
  text: string;
  type: string;
  body: Read;
}
interface Asked {
  method: "GET" | "POST" | "PATCH";
  url: string;
  payload?: string;
}

/** What shows how the service is built, in no answer of its own. */
const INSIDE = /node_modules|\n {4}at |[pP]risma\.|\/src\/\w|invalid byte sequence|42\d\d\d:/;
const PLAIN = "Plain";
/** The way to the next page, once there are so many. */
const NEXT = "a class href rel";

/** The tags that pages of records with plain texts have: no text may bring another one. */
export type Vocabulary = Set<string>;

export class Desk {
  readonly kept = new Map<RecordKind, Kept[]>();
  /** Strings that no text of a record took, and those that another record had already. */
  readonly refused = new Map<RecordKind, number>();
  readonly doubled = new Map<RecordKind, number>();
  private readonly service: TestService;
  private count = 0;

  constructor(service: TestService) {
    this.service = service;
  }

  async get(url: string, by: RecordKind["by"] = "owner"): Promise<Reply> {
    return this.ask({ method: "GET", url }, by);
  }

  private async ask({ payload, ...asked }: Asked, by: RecordKind["by"] = "owner", etag?: string) {
    const headers = {
      authorization: `Bearer ${this.service.firm.people[by].token}`,
      ...(payload ? { "content-type": "application/json" } : {}),
      ...(etag ? { "if-match": etag } : {}),
    };
    const sent = { ...asked, headers, ...(payload ? { payload } : {}) };
    const reply = await this.service.app.inject(sent);
    const type = String(reply.headers["content-type"]);
    const body = type.includes("json") ? reply.json() : {};
    return { status: reply.statusCode, text: reply.body, type, body };
  }

  private async send(kind: RecordKind, texts: Record<string, string>): Promise<Reply> {
    this.count += 1;
    const { count } = this;
    await kind.before?.();
    const { to, method = "POST", by } = kind;
    const etag = method === "PATCH" ? `"${(await this.get(to, by)).body.version}"` : undefined;
    // Written by hand, so that a lone half stands in it as an escape (ECMA-262, 25.5.2.3).
    const payload = JSON.stringify(withTexts(kind.rest(count), texts));
    return this.ask({ method, url: to, payload }, by, etag);
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
      if (refused.length === fields.length) {
        this.refused.set(kind, (this.refused.get(kind) ?? 0) + 1);
        return undefined;
      }
    }
    const sent = fields.map((key) => [key, this.textFor(kind, key, text, refused)] as const);
    const reply = await this.send(kind, Object.fromEntries(sent));
    if (reply.status === 409 && kind.unique) {
      this.doubled.set(kind, (this.doubled.get(kind) ?? 0) + 1);
      return undefined;
    }
    expect([200, 201], reply.text.slice(0, 500)).toContain(reply.status);
    const texts = Object.fromEntries(
      sent.map(([key, value]) => [key, keptAs(value, kind.texts[key]!)]),
    );
    expectTexts(kind, "reply", reply.body, texts);
    const own = kind.idOf ? kind.idOf(reply.body) : reply.body.id;
    const id = kind.namesItself === false ? "" : own;
    const kept = { id, texts };
    this.kept.set(kind, [...(this.kept.get(kind) ?? []), kept]);
    return kept;
  }

  private textFor(kind: RecordKind, key: string, text: string, refused: string[]): string {
    const isUnique = kind.unique?.includes(key);
    if (!refused.includes(key) && !(isUnique && text === PLAIN)) return text;
    return isUnique ? `${PLAIN} ${this.count}` : PLAIN;
  }

  private async expectRefused(kind: RecordKind, text: string, refused: string[]): Promise<void> {
    const fields = Object.keys(kind.texts);
    const reply = await this.send(kind, Object.fromEntries(fields.map((key) => [key, text])));
    expect(reply.text).not.toMatch(INSIDE);
    expect(reply.status, reply.text).toBe(422);
    expect(reply.type).toMatch(/^application\/problem\+json/);
    const pointed = pointers(reply);
    const isNamed = (key: string) => pointed.some((pointer) => leadsTo(`/body/${key}`, pointer));
    expect(fields.filter(isNamed), reply.text).toEqual(refused);
  }

  async expectReadBack(kind: RecordKind, { id, texts }: Kept): Promise<void> {
    if (!kind.one) return;
    const reply = await this.get(kind.one(id), kind.by);
    expect(reply.status).toBe(200);
    expectTexts(kind, "one", reply.body, texts);
  }

  async page({ page, by }: RecordKind, id: string): Promise<string> {
    const reply = await this.get(page!(id), by);
    expect(reply.status, reply.text.slice(0, 500)).toBe(200);
    expect(reply.type).toMatch(/^text\/html/);
    return reply.text;
  }

  /** The page holds the text as text, and no tag or attribute that plain texts do not have. */
  async expectShown(kind: RecordKind, kept: readonly Kept[], known: Vocabulary): Promise<void> {
    if (!kind.page) return;
    const page = await this.page(kind, kept[0]!.id);
    expect(page).not.toMatch(INSIDE);
    const pieces = piecesOf(page);
    const texts = kept.flatMap((one) =>
      Object.entries(one.texts).flatMap(([key, text]) =>
        kind.unshown?.includes(key) ? [] : [text],
      ),
    );
    const missing = texts.filter((text) => !pieces.some((piece) => piece.includes(text)));
    expect(missing).toEqual([]);
    const added = tagsOf(page).filter(
      (tag) => !known.has(tag) && !(kind.sharesPage && tag === NEXT),
    );
    expect(added).toEqual([]);
  }

  async vocabulary(kind: RecordKind): Promise<Vocabulary> {
    // A second one alike has what a page says of such twins.
    await this.keep(kind, PLAIN);
    const kept = await this.keep(kind, PLAIN);
    return new Set(kind.page ? tagsOf(await this.page(kind, kept!.id)) : []);
  }
}

/** Itself, or the one of several shapes that it stands in. */
const leadsTo = (place: string, pointer: string): boolean =>
  place === pointer || (pointer.split("/").length > 3 && place.startsWith(`${pointer}/`));

/** The texts stand in what came back as they were sent. */
function expectTexts(
  { texts: rules, reads }: RecordKind,
  from: "reply" | "one",
  body: Read,
  texts: Record<string, string>,
): void {
  const sent = reads?.[from] ? reads[from](body) : body;
  if (sent !== undefined) expect(textsAt(sent, Object.keys(rules))).toEqual(texts);
}
