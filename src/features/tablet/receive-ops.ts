import type { IncomingOp } from "./ops-incoming.ts";
import type { OpResults } from "./schemas.ts";
import { type Receiver, takeOp } from "./take-op.ts";

/** One after another, each in a transaction of its own: what came through stays. */
export async function receiveOps(
  receiver: Receiver,
  ops: readonly IncomingOp[],
): Promise<OpResults> {
  const results: OpResults["results"] = [];
  let storedThrough = 0;
  for (const incoming of ops) {
    const taken = await takeOp(receiver, incoming);
    results.push(taken.result);
    storedThrough = taken.storedThrough;
  }
  return { results, storedThrough };
}
