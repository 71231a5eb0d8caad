// An operation is hashed as it was sent: reading it through its schema trims and fills in, and the
// tablet's chain is over what the tablet wrote.
import { tryCanonicalize } from "../../domain/evidence/canonical-json.ts";
import { sha256HexSync, utf8 } from "../../domain/evidence/sha256.ts";
import { pointerOf } from "../../domain/plan/problem.ts";
import { faultsInJson, type Path } from "../../domain/texts/faults-in-json.ts";
import type { TabletOp } from "./schemas.ts";

export interface IncomingOp {
  op: TabletOp;
  /** RFC 8785 form of what was sent. */
  body: string;
  sha256: string;
  /** Why its texts cannot be kept as they are: it alone is refused, and not its batch. */
  textFault?: PlacedText;
}

export interface PlacedText {
  /** RFC 6901 pointer into the operation. */
  place: string;
  fault: string;
}

/** @param asSent the operation before its schema read it, plain JSON */
export function readIncoming(op: TabletOp, asSent: unknown): IncomingOp {
  const canonical = tryCanonicalize(asSent);
  // Half a character has no canonical form; JSON spells it as an escape.
  const body = canonical.ok ? canonical.text : JSON.stringify(asSent);
  const incoming = { op, body, sha256: sha256HexSync(utf8(body)) };
  const textFault = textFaultIn(op);
  return textFault === undefined ? incoming : { ...incoming, textFault };
}

/** The first of an operation's texts that cannot be kept as it is. */
export function textFaultIn(op: TabletOp): PlacedText | undefined {
  const [first] = faultsInJson(op, (path) => (mayHaveLines(op, path) ? "many" : "one"));
  return first && { place: pointerOf(first.path), fault: first.fault };
}

const mayHaveLines = ({ payload }: TabletOp, path: Path): boolean => {
  const place = path.join("/");
  if (payload.kind === "answer") return place === "payload/answer/note";
  return place === "payload/text";
};
