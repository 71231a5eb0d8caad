// What tests read off replies.
import { expect } from "vitest";
import { verifyChain } from "../../src/domain/evidence/ledger-chain.ts";
import { openBody } from "../../src/domain/evidence/salted-texts.ts";
import type { TestService } from "./app.ts";

/** Pointers of a refusal's input errors. */
export const pointers = (reply: { body: { errors?: { pointer: string }[] } }): string[] =>
  (reply.body.errors ?? []).map((error) => error.pointer);

export const idsOf = (reply: { body: { items: { id: string }[] } }): string[] =>
  reply.body.items.map(({ id }) => id);

/** Address of the next page, "" on the last. */
export const nextOf = (reply: { headers: Record<string, string> }): string =>
  /<([^>]+)>; rel="next"/.exec(reply.headers.link ?? "")?.[1] ?? "";

/** The job's ledger, its chain replayed. */
interface LedgerItem {
  seq: number;
  text: string;
  sha256: string;
  texts: { path: string; salt: string; text: string }[];
}

/** The job's ledger with what people wrote in its place. */
export async function ledgerOf(service: TestService, jobId: string) {
  const reply = await service
    .as(service.firm.people.office)
    .get(`/api/v1/jobs/${jobId}/ledger?limit=500`);
  const items = reply.body.items as LedgerItem[];
  expect(verifyChain(items)).toMatchObject({ ok: true });
  return items.map(({ text, texts }) => {
    const { kind, body, ...more } = JSON.parse(text);
    const written = new Map(texts.map((one) => [one.path, one.text]));
    return { ...more, kind, body: openBody(body, written) } as { kind: string; body: object };
  });
}
