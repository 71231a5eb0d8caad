// An operation is hashed as it was sent: reading it through its schema trims and fills in, and the
// tablet's chain is over what the tablet wrote.
import { tryCanonicalize } from "../../domain/evidence/canonical-json.ts";
import { sha256HexSync, utf8 } from "../../domain/evidence/sha256.ts";
import type { TabletOp } from "./schemas.ts";

export interface IncomingOp {
  op: TabletOp;
  /** RFC 8785 form of what was sent. */
  body: string;
  sha256: string;
}

export type IncomingReading = { ok: true; incoming: IncomingOp } | { ok: false; problem: string };

/** @param asSent the operation before its schema read it, plain JSON */
export function readIncoming(op: TabletOp, asSent: unknown): IncomingReading {
  const canonical = tryCanonicalize(asSent);
  if (!canonical.ok) return canonical;
  const body = canonical.text;
  return { ok: true, incoming: { op, body, sha256: sha256HexSync(utf8(body)) } };
}
