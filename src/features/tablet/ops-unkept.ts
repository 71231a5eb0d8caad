// How an operation stands to the row of its device, and what is said of one that is not its next.
import type { Statement } from "../../db/scope.ts";
import type { Problem } from "../../errors.ts";
import type { IncomingOp, PlacedText } from "./ops-incoming.ts";
import {
  advanceStatement,
  type ExistingOp,
  type OpPlace,
  quarantineStatement,
  type StoredReply,
} from "./ops-store.ts";
import type { OpResult, TabletOp } from "./schemas.ts";

export interface Taken {
  result: OpResult;
  /** The last of the device that the server has. */
  storedThrough: number;
}

export type Standing = "next" | "repeated" | "early" | "reused";

export function standingOf(place: OpPlace, incoming: IncomingOp): Standing {
  if (place.existing.some((row) => isSame(row, incoming))) return "repeated";
  if (place.existing.length > 0) return "reused";
  const { deviceSeq } = incoming.op;
  if (deviceSeq > place.lastSeq + 1) return "early";
  // A place can be used up without an operation in it: by one whose id was another's.
  return deviceSeq === place.lastSeq + 1 ? "next" : "reused";
}

const isSame = (row: ExistingOp, { op, sha256 }: IncomingOp): boolean =>
  row.opId === op.opId.toLowerCase() && row.bodySha256 === sha256;

export function whenUnkept(
  receiver: { firmId: string; personId: string },
  incoming: IncomingOp,
  place: OpPlace,
  standing: Exclude<Standing, "next">,
  at: Date,
): { taken: Taken; statements: Statement[] } {
  const { op } = incoming;
  const { lastSeq: storedThrough } = place;
  if (standing === "repeated") {
    const row = place.existing.find((existing) => isSame(existing, incoming));
    const reply = { ...row?.reply, opId: op.opId } as StoredReply;
    return { taken: { result: { ...reply, repeated: true }, storedThrough }, statements: [] };
  }
  if (standing === "early") {
    const { opId, deviceSeq } = op;
    const result = { opId, deviceSeq, outcome: "early", repeated: false } as const;
    return { taken: { result, storedThrough }, statements: [] };
  }
  const { deviceSeq } = op;
  return whenRefused(receiver, incoming, storedThrough, at, {
    code: "op-reused",
    message:
      `Another operation was kept under this id, or as number ${deviceSeq} of this tablet. ` +
      "The first one stands; this one was put aside for the office.",
  });
}

/** For a text that cannot be kept; sent once more it is refused in the same words. */
export function whenTextFaulty(
  receiver: { firmId: string; personId: string },
  incoming: IncomingOp,
  place: OpPlace,
  { place: pointer, fault }: PlacedText,
  at: Date,
): { taken: Taken; statements: Statement[] } {
  return whenRefused(receiver, incoming, place.lastSeq, at, {
    code: "invalid-input",
    message: `Its text at ${pointer} ${fault}. It was put aside for the office.`,
  });
}

/** Its body is kept for a person to look at; its place is used up, so that the next can follow. */
function whenRefused(
  { firmId, personId: sentById }: { firmId: string; personId: string },
  incoming: IncomingOp,
  lastSeq: number,
  at: Date,
  problem: { code: string; message: string },
): { taken: Taken; statements: Statement[] } {
  const { op } = incoming;
  const isNext = op.deviceSeq === lastSeq + 1;
  const result = refusal(op, "refused", problem);
  return {
    taken: {
      result: { ...result, repeated: false },
      storedThrough: isNext ? op.deviceSeq : lastSeq,
    },
    statements: [
      quarantineStatement(firmId, incoming, { sentById, why: problem.message, at }),
      ...(isNext ? [advanceStatement(firmId, incoming, at)] : []),
    ],
  };
}

/** The sentence may quote what came, and U+0000 cannot be stored. */
export const refusal = (
  { opId, deviceSeq }: TabletOp,
  outcome: "held" | "refused",
  { code, message }: Pick<Problem, "message"> & { code: string },
): StoredReply => ({
  opId,
  deviceSeq,
  outcome,
  code,
  sentence: message.replaceAll("\u0000", "\ufffd"),
});
