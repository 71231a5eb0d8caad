// What a tablet speaks to, as a function in place of the browser's fetch: holds to the protocol,
// and can be told to fail in ways that the real service cannot.
import type {
  OpResult,
  Packet,
  TabletDay,
  TabletOp,
} from "../../../src/features/tablet/schemas.ts";
import { FIRM_ID, PERSON_ID } from "./test-tablet.ts";

export interface Call {
  method: string;
  path: string;
  headers: Headers;
  body: unknown;
  bytes: Uint8Array | undefined;
}

/** What comes instead of the service's own reply; undefined lets the request through. */
export type Fault = (call: Call) => Response | Promise<Response> | undefined;

export const PERSON = {
  personId: PERSON_ID,
  firmId: FIRM_ID,
  name: "Ada Fell",
  roles: ["installer"],
};

const json = (body: unknown, status = 200, headers: Record<string, string> = {}): Response =>
  new Response(JSON.stringify(body), {
    status,
    headers: { "content-type": "application/json; charset=utf-8", ...headers },
  });

export const problem = (
  status: number,
  detail = "So it is.",
  headers: Record<string, string> = {},
): Response =>
  json({ status, detail }, status, { "content-type": "application/problem+json", ...headers });

export const page = (status = 200): Response =>
  new Response("<html><body>Welcome to our guest network</body></html>", {
    status,
    headers: { "content-type": "text/html; charset=utf-8" },
  });

export class ProtocolServer {
  readonly calls: Call[] = [];
  readonly stored = new Map<string, TabletOp>();
  readonly lastSeqs = new Map<string, number>();
  readonly photos = new Map<string, { bytes: Uint8Array[]; length: number }>();
  day: TabletDay["items"] = [];
  dayVersion = 1;
  readonly packets = new Map<string, Packet>();
  /** The server's clock. */
  time = "2026-11-25T10:42:00.000Z";
  signedIn = true;
  canRefresh = true;
  person = PERSON;
  fault: Fault = () => undefined;

  fetch = async (path: string, init: RequestInit): Promise<Response> => {
    const { method = "GET", body } = init;
    const bytes = body instanceof ArrayBuffer ? new Uint8Array(body) : undefined;
    const parsed = typeof body === "string" ? JSON.parse(body) : undefined;
    const call = { method, path, headers: new Headers(init.headers), body: parsed, bytes };
    this.calls.push(call);
    const reply = (await this.fault(call)) ?? this.#answer(call);
    if (!reply.headers.has("date")) reply.headers.set("date", new Date(this.time).toUTCString());
    return reply;
  };

  pathsOf(method: string): string[] {
    return this.calls.filter((call) => call.method === method).map(({ path }) => path);
  }

  /** How many operations each request carried. */
  batches(): number[] {
    return this.calls
      .filter(({ path }) => path === "/api/v1/tablet/ops")
      .map(({ body }) => (body as { ops: unknown[] }).ops.length);
  }

  #answer(call: Call): Response {
    const { method, path } = call;
    if (method === "POST" && path === "/api/v1/session/refresh") return this.#refresh();
    if (!this.signedIn) return problem(401, "Sign in first.");
    if (method === "GET" && path === "/api/v1/session") return json(this.person);
    if (method === "POST" && path === "/api/v1/tablet/ops") return this.#takeOps(call);
    if (path.includes("/photo-uploads/")) return this.#takePiece(call);
    if (path === "/api/v1/tablet/day") return this.#giveDay(call);
    const packet = this.packets.get(path.replace("/api/v1/tablet/packets/", ""));
    return packet ? json(packet) : problem(404, "There is no such job.");
  }

  #refresh(): Response {
    if (!this.canRefresh) return problem(401, "The session has ended. Sign in again.");
    this.signedIn = true;
    return json({ accessToken: "a", refreshToken: "r", person: this.person }, 201);
  }

  #takeOps({ body }: Call): Response {
    const { ops } = body as { ops: TabletOp[] };
    const results = ops.map((op) => this.take(op));
    const storedThrough = this.lastSeqs.get(ops.at(-1)?.deviceId ?? "") ?? 0;
    return json({ results, storedThrough });
  }

  take(op: TabletOp): OpResult {
    const { opId, deviceId, deviceSeq } = op;
    const last = this.lastSeqs.get(deviceId) ?? 0;
    const repeated = JSON.stringify(this.stored.get(opId)) === JSON.stringify(op);
    if (repeated) return { opId, deviceSeq, outcome: "stored", repeated };
    if (deviceSeq > last + 1) return { opId, deviceSeq, outcome: "early", repeated };
    if (deviceSeq <= last || this.stored.has(opId)) {
      this.lastSeqs.set(deviceId, Math.max(last, deviceSeq));
      return { opId, deviceSeq, outcome: "refused", repeated, code: "op-reused" };
    }
    this.stored.set(opId, op);
    this.lastSeqs.set(deviceId, deviceSeq);
    return { opId, deviceSeq, outcome: "stored", repeated };
  }

  #takePiece({ method, path, headers, bytes }: Call): Response {
    const key = path.split("?")[0] as string;
    const photo = this.photos.get(key) ?? { bytes: [], length: Infinity };
    const offset = photo.bytes.reduce((sum, piece) => sum + piece.length, 0);
    const told = (at: number, complete: boolean) => ({
      "upload-offset": String(at),
      "upload-complete": complete ? "?1" : "?0",
    });
    if (method === "HEAD") {
      return new Response(null, { status: 204, headers: told(offset, offset === photo.length) });
    }
    if (Number(headers.get("upload-offset")) !== offset) {
      return problem(409, "It stands elsewhere.", told(offset, false));
    }
    photo.bytes.push(bytes ?? new Uint8Array());
    photo.length = Number(headers.get("upload-length"));
    this.photos.set(key, photo);
    const end = offset + (bytes?.length ?? 0);
    return new Response(null, { status: 204, headers: told(end, end === photo.length) });
  }

  #giveDay({ headers }: Call): Response {
    const etag = `"day-${this.dayVersion}"`;
    if (headers.get("if-none-match") === etag) {
      return new Response(null, { status: 304, headers: { etag } });
    }
    return json({ serverTime: this.time, items: this.day }, 200, { etag });
  }
}
