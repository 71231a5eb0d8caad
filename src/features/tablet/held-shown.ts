import type { z } from "zod";
import { type HeldRow, readBody } from "./decide-held.ts";
import type { HeldOperation } from "./held-schemas.ts";
import type { StoredReply } from "./ops-store.ts";

export function shownHeld(row: HeldRow): z.infer<typeof HeldOperation> {
  const operation = readBody(row);
  const { code = "", sentence = "" } = row.reply as unknown as StoredReply;
  const { opId, deviceId, deviceSeq, kind, jobId, personId, sentById, chainBroken } = row;
  return {
    ...{ opId, deviceId, deviceSeq, kind, jobId, personId, sentById, chainBroken },
    jobReference: row.job?.reference ?? null,
    personName: row.person?.name ?? null,
    sentByName: row.sentBy.name,
    keptAt: operation.wallClock,
    receivedAt: row.receivedAt.toISOString(),
    code,
    sentence,
    operation,
    decision: decisionOf(row),
  };
}

function decisionOf(row: HeldRow): z.infer<typeof HeldOperation>["decision"] {
  if (row.decidedAt === null || row.decidedById === null) return null;
  return {
    decision: row.decision as "applied" | "dismissed",
    decidedAt: row.decidedAt.toISOString(),
    decidedById: row.decidedById,
    decidedByName: row.decidedBy?.name ?? "",
    reason: row.decisionReason,
    reply: row.decisionReply as Partial<StoredReply> | null,
  };
}
