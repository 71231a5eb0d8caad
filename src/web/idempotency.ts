// A creating post that carries an Idempotency-Key happens once, however often it is sent: the key,
// the effect and the reply are stored in one transaction, and the same key replays the same reply.
import { createHash } from "node:crypto";
import type { FastifyReply, FastifyRequest } from "fastify";
import type { Database } from "../db/client.ts";
import { claimKey, storeReply } from "../db/idempotency-keys.ts";
import { type FirmTransaction, inFirmAs } from "../db/scope.ts";
import { invalid, Problem } from "../errors.ts";
import { signedIn } from "./session.ts";

export interface Created<Body> {
  status?: number;
  /** Address of what was made. */
  location?: string;
  version?: number;
  body: Body;
}

/** Runs `work` in the caller's firm and sends its reply, once per Idempotency-Key. */
export async function create<Body>(
  db: Database,
  request: FastifyRequest,
  reply: FastifyReply,
  work: (tx: FirmTransaction) => Promise<Created<Body>>,
): Promise<Body> {
  const { firmId, personId } = signedIn(request);
  const key = keyOf(request);
  const made = await inFirmAs(db, { firmId, personId }, async (tx) => {
    if (key === undefined) return work(tx);
    const stored = await claim(tx, personId, key, request);
    if (stored) return { ...(stored as Created<Body>), replayed: true };
    const result = await work(tx);
    await storeReply(
      tx,
      { personId, key },
      {
        status: result.status ?? 201,
        location: result.location ?? null,
        response: { body: result.body, version: result.version ?? null },
      },
    );
    return result;
  });
  if ("replayed" in made) reply.header("idempotency-replayed", "true");
  reply.code(made.status ?? 201);
  if (made.location) reply.header("location", made.location);
  if (made.version) reply.header("etag", `"${made.version}"`);
  return made.body;
}

function keyOf(request: FastifyRequest): string | undefined {
  const key = request.headers["idempotency-key"];
  if (key === undefined) return undefined;
  if (typeof key !== "string" || !/^[\x21-\x7e]{8,128}$/.test(key)) {
    throw invalid("/headers/idempotency-key", "must be 8 to 128 visible ASCII characters");
  }
  return key;
}

/** Takes the key for this request, or returns what the first request with it was answered. */
async function claim(
  tx: FirmTransaction,
  personId: string,
  key: string,
  request: FastifyRequest,
): Promise<Created<unknown> | undefined> {
  const operation = `${request.method} ${request.url}`;
  const bodySha256 = createHash("sha256")
    .update(JSON.stringify(request.body ?? null))
    .digest("hex");
  const row = await claimKey(tx, { personId, key, operation, bodySha256 });
  if (!row) return undefined;
  if (row.operation !== operation || row.bodySha256 !== bodySha256) {
    throw new Problem("idempotency-key-reused", `The key was first used for ${row.operation}.`);
  }
  const response = row.response as { body: unknown; version: number | null };
  return {
    status: row.status ?? 201,
    body: response.body,
    ...(row.location ? { location: row.location } : {}),
    ...(response.version ? { version: response.version } : {}),
  };
}
