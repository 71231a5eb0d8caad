// What the next visits need, fetched while there is signal.
import type { Packet, TabletDay, TabletVisit } from "../../features/tablet/schemas.ts";
import { phrase } from "../language/spoken.ts";
import { type Halt, haltOf, outdated, stranger } from "./halt.ts";
import { isRecord, type Reply } from "./reply.ts";
import type { Round } from "./send-ops.ts";

export interface Fetched {
  halt?: Halt | undefined;
  /** RFC 3339, told by the server just now. */
  serverTime?: string | undefined;
}

/** The list, then each packet that changed. */
export async function fetchPackets(round: Round): Promise<Fetched> {
  const tag = await round.store.dayTag();
  const reply = await round.caller.call({
    method: "GET",
    path: "/api/v1/tablet/day",
    ...(tag === undefined ? {} : { headers: { "if-none-match": tag } }),
  });
  if (reply.kind !== "answered") return { halt: haltOf(reply) };
  let serverTime = reply.serverAt;
  if (reply.status !== 304) {
    if (!isDay(reply.body)) return { halt: stranger() };
    serverTime = reply.body.serverTime;
    await round.store.takeDay(reply.body.items, reply.headers.get("etag") ?? undefined);
  }
  return { halt: await fetchChanged(round), serverTime };
}

async function fetchChanged(round: Round): Promise<Halt | undefined> {
  let unread: Halt | undefined;
  for (const { jobId, wanted, held } of await round.store.wantedPackets()) {
    if (wanted === held) continue;
    const halt = await fetchPacket(round, jobId, held);
    if (halt && halt.state !== "outdated") return halt;
    unread ??= halt;
  }
  return unread;
}

async function fetchPacket(
  round: Round,
  jobId: string,
  held: string | undefined,
): Promise<Halt | undefined> {
  const reply = await round.caller.call({
    method: "GET",
    path: `/api/v1/tablet/packets/${jobId}`,
    ...(held === undefined ? {} : { headers: { "if-none-match": `"${held}"` } }),
  });
  if (reply.kind === "refused") return noteRefusal(round, jobId, reply);
  if (reply.kind !== "answered") return haltOf(reply);
  if (reply.status === 304) return undefined;
  if (!isRecord(reply.body) || !isRecord(reply.body.job)) return stranger();
  if (reply.body.schema !== "packet/1") {
    await round.store.notePacketProblem(jobId, phrase("tabletSync.packetUnreadable"));
    return outdated();
  }
  if (reply.body.job.id !== jobId || typeof reply.body.version !== "string") return stranger();
  await round.store.takePacket(reply.body as Packet, round.at());
  return undefined;
}

async function noteRefusal(
  { store }: Round,
  jobId: string,
  reply: Extract<Reply, { kind: "refused" }>,
): Promise<Halt | undefined> {
  // Taken away since the list was made: the next list says so.
  const isGone = reply.status === 404;
  await store.notePacketProblem(jobId, isGone ? phrase("tabletSync.jobGone") : reply.sentence);
  return isGone ? undefined : haltOf(reply);
}

const isDay = (body: unknown): body is TabletDay =>
  isRecord(body) &&
  typeof body.serverTime === "string" &&
  !Number.isNaN(Date.parse(body.serverTime)) &&
  Array.isArray(body.items) &&
  body.items.every(isVisit);

const isVisit = (visit: unknown): visit is TabletVisit =>
  isRecord(visit) &&
  [visit.visitId, visit.jobId, visit.packetVersion].every((text) => typeof text === "string");
