// Requests of one round: a session that ran out is renewed once, and how the service was last heard
// from is remembered.

import { phrase } from "../language/spoken.ts";
import { isProfile } from "../store/profile.ts";
import type { Ports } from "./ports.ts";
import { isRecord, type Reply, readReply } from "./reply.ts";

export interface Request {
  method: "GET" | "POST" | "HEAD" | "PATCH" | "DELETE";
  path: string;
  headers?: Record<string, string>;
  /** Sent as JSON. */
  json?: unknown;
  bytes?: ArrayBuffer;
}

export interface Caller {
  call(request: Request): Promise<Reply>;
}

/** A slow link carries a piece of a photo within this. */
const ANSWER_MS = 120_000;

/** One request, without looking at the session. */
export async function send(ports: Ports, request: Request): Promise<Reply> {
  const { method, path, headers, json, bytes } = request;
  const abort = new AbortController();
  const callOff = ports.after(ANSWER_MS, () => abort.abort());
  try {
    const response = await ports.fetch(path, {
      method,
      headers: {
        accept: "application/json",
        ...(json === undefined ? {} : { "content-type": "application/json" }),
        ...headers,
      },
      ...(json === undefined ? {} : { body: JSON.stringify(json) }),
      ...(bytes === undefined ? {} : { body: bytes }),
      credentials: "same-origin",
      redirect: "manual",
      cache: "no-store",
      signal: abort.signal,
    });
    return await readReply(response);
  } catch {
    // Whatever a browser says of a connection that broke or never was.
    return { kind: "offline" };
  } finally {
    callOff();
  }
}

export function createCaller(ports: Ports, firmId: string, onContact: () => void): Caller {
  let mayRefresh = true;
  const heard = async (request: Request): Promise<Reply> => {
    const reply = await send(ports, request);
    if (reply.kind !== "offline" && reply.kind !== "stranger") onContact();
    return reply;
  };
  return {
    call: async (request) => {
      const reply = await heard(request);
      if (reply.kind !== "signed-out" || !mayRefresh) return reply;
      mayRefresh = false;
      const renewed = await heard({ method: "POST", path: "/api/v1/session/refresh", json: {} });
      if (renewed.kind !== "answered") return renewed;
      const person = isRecord(renewed.body) ? renewed.body.person : undefined;
      if (!isProfile(person)) return { kind: "stranger" };
      return person.firmId === firmId ? heard(request) : otherFirm();
    },
  };
}

/** What this store holds belongs to its firm and goes to no other. */
export const otherFirm = (): Reply => ({
  kind: "signed-out",
  sentence: phrase("tabletSync.otherFirm"),
});
