// What a snag, a message or a close-out does, in the transaction that stores its operation.
import type { FirmTransaction } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Author } from "../answers/judge-answers.ts";
import { closeOutJob } from "../close-out/close-job.ts";
import { lockJob } from "../jobs/store.ts";
import { writeMessage } from "../messages/write-message.ts";
import { raiseSnag } from "../snags/keep-snag.ts";
import type { OpResult, TabletOp } from "./schemas.ts";

export type ActReply = Pick<OpResult, "closed" | "blockers">;

/** A refusal is thrown as a Problem, and undoes the transaction. */
export async function act(
  tx: FirmTransaction,
  { jobId, payload }: TabletOp,
  { personId, at, origin }: Author,
): Promise<ActReply> {
  if (payload.kind === "snag") {
    await raiseSnag(tx, jobId, snagFields(payload.text), personId, at, origin);
    return {};
  }
  if (payload.kind === "message") {
    const { text } = payload;
    const own = origin ? { id: origin.opId } : {};
    await writeMessage(tx, { ...own, jobId, text, personId, fromTablet: true }, at);
    return {};
  }
  if (payload.kind !== "close-out") throw new Error(`${payload.kind} is stored by statements`);
  const job = await lockJob(tx, jobId);
  if (!job) throw notFound("job");
  // What was asked for is so already: nothing is left for the office to decide.
  if (job.state === "closed") return { closed: true, blockers: 0 };
  const result = await closeOutJob(tx, jobId, personId, at, origin);
  return { closed: result.closed, blockers: result.closed ? 0 : result.blockers.length };
}

const TITLE_MOST = 160;
/** In characters, of which one may count for two. */
const CUT_AT = 79;

/** A title is one short line; what does not fit stands in full below it. */
export function snagFields(text: string): { title: string; detail?: string } {
  const line = (text.split(/[\r\n]/, 1)[0] ?? "").replaceAll(/\s+/g, " ").trim();
  if (line === text && line.length <= TITLE_MOST) return { title: line };
  if (line !== "" && line.length <= TITLE_MOST) return { title: line, detail: text };
  const start = [...text.replaceAll(/\s+/g, " ")].slice(0, CUT_AT).join("");
  return { title: `${start} …`, detail: text };
}
