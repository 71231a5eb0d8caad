// The reply to a batch, read without trust: anything else that is JSON is a stranger's.
import type { OpResult, OpResults, TabletOp } from "../../features/tablet/schemas.ts";
import { isRecord } from "./reply.ts";

const KNOWN = ["stored", "held", "early", "refused"];

export interface BatchReply {
  /** Of operations that were sent, in their order. */
  results: OpResult[];
  storedThrough: number;
  /** Whether an outcome is none that this version knows. */
  hasUnknown: boolean;
}

export function readBatchReply(body: unknown, sent: readonly TabletOp[]): BatchReply | undefined {
  if (!isResults(body)) return undefined;
  const byId = new Map(body.results.map((result) => [result.opId, result]));
  const own = sent.flatMap(({ opId }) => byId.get(opId) ?? []);
  const results = own.filter(({ outcome }) => KNOWN.includes(outcome));
  return {
    results,
    storedThrough: body.storedThrough,
    hasUnknown: results.length < own.length,
  };
}

function isResults(body: unknown): body is OpResults {
  if (!isRecord(body) || !Array.isArray(body.results)) return false;
  return (
    Number.isSafeInteger(body.storedThrough) &&
    body.results.every(
      (result: unknown) =>
        isRecord(result) && typeof result.opId === "string" && typeof result.outcome === "string",
    )
  );
}
