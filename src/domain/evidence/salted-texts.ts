// Requirement: what a person wrote can be taken away and the ledger still verifies (Regulation (EU)
// 2016/679, Article 17): an entry holds {"salted": hash} in the place of the text, the SHA-256 of a
// salt followed by the text, and both are kept beside the ledger. Without a salt, a name could be
// guessed from its hash. Entries from before hold the text itself, and stay as they are.
import { sha256HexSync, utf8 } from "./sha256.ts";

/** What stands for a text that was taken away. */
export const ERASED = "Erased";
const ERASED_SHA256 = "0".repeat(64);

/** A text by its JSON pointer in the entry's body, with the salt that was put before it. */
export type SaltedText = { path: string; salt: string; text: string };
export type JsonObject = { readonly [name: string]: unknown };

/** Members of entries' bodies, by kind, that can hold a person's words or name. */
const WRITTEN: Readonly<Record<string, readonly string[]>> = {
  "answer.taken": ["/value/name", "/note"],
  "concession.granted": ["/reason"],
  "job.cancelled": ["/reason"],
  "job.reopened": ["/reason"],
  "operation.dismissed": ["/reason"],
  "snag.edited": ["/text"],
  "snag.mended": ["/note"],
  "snag.raised": ["/text"],
};
/** Hashed over a written text, which could be guessed from it: salted wherever there is one. */
const HASHED_OVER_IT: Readonly<Record<string, readonly string[]>> = {
  "answer.taken": ["/bodySha256"],
};

/** Hex SHA-256 of the salt, in the letters it is written in, followed by the text. */
export const saltedSha256 = ({ salt, text }: Omit<SaltedText, "path">): string =>
  sha256HexSync(utf8(salt + text));

/** The body with hashes in the place of what people wrote, and what they stand for. */
export function saltBody(
  kind: string,
  body: JsonObject,
  newSalt: () => string,
): { body: JsonObject; texts: SaltedText[] } {
  const texts: SaltedText[] = [];
  let salted = body;
  const take = (path: string): void => {
    const text = memberAt(body, path);
    if (typeof text !== "string") return;
    const one = { path, salt: newSalt(), text };
    texts.push(one);
    salted = withMember(salted, path, { salted: saltedSha256(one) });
  };
  (WRITTEN[kind] ?? []).forEach(take);
  if (texts.length > 0) (HASHED_OVER_IT[kind] ?? []).forEach(take);
  return { body: salted, texts };
}

/** Where a body holds salted hashes: each by the path of what it stands for. */
export function saltedPaths(body: JsonObject, under = ""): { path: string; sha256: string }[] {
  return Object.entries(body).flatMap(([name, member]) => {
    if (typeof member !== "object" || member === null || Array.isArray(member)) return [];
    const path = `${under}/${name}`;
    const { salted, ...others } = member as JsonObject;
    if (typeof salted === "string" && SHA256.test(salted) && Object.keys(others).length === 0) {
      return [{ path, sha256: salted }];
    }
    return saltedPaths(member as JsonObject, path);
  });
}

const SHA256 = /^[0-9a-f]{64}$/;

/**
 * The body as it was written, with ERASED in the place of texts that are kept no more.
 * @param texts by path
 */
export const openBody = (body: JsonObject, texts: ReadonlyMap<string, string>): JsonObject =>
  saltedPaths(body).reduce<JsonObject>(
    (opened, { path }) => withMember(opened, path, texts.get(path) ?? erasedAt(path)),
    body,
  );

const erasedAt = (path: string): string => (path.endsWith("Sha256") ? ERASED_SHA256 : ERASED);

function memberAt(body: JsonObject, path: string): unknown {
  let member: unknown = body;
  for (const name of namesIn(path)) {
    if (typeof member !== "object" || member === null) return undefined;
    member = (member as JsonObject)[name];
  }
  return member;
}

function withMember(body: JsonObject, path: string, value: unknown): JsonObject {
  const [name = "", ...rest] = namesIn(path);
  if (rest.length === 0) return { ...body, [name]: value };
  const inner = body[name] as JsonObject;
  return { ...body, [name]: withMember(inner, `/${rest.join("/")}`, value) };
}

const namesIn = (path: string): string[] => path.slice(1).split("/");
