// Every way that leads a file into the service, over its own routes and a connection of its own.
import { createHash } from "node:crypto";
import { type IncomingMessage, request } from "node:http";
import type { AddressInfo } from "node:net";
import { buffer } from "node:stream/consumers";
import type { TestService } from "../../support/app.ts";

export interface Answer {
  status: number;
  headers: Record<string, unknown>;
  bytes: Buffer;
}

export interface Sending {
  method?: "POST" | "PUT" | "PATCH" | "GET" | "DELETE";
  url: string;
  by?: "owner" | "office" | "installer";
  headers?: Record<string, string>;
  bytes?: Buffer;
}

export const hashOf = (bytes: Buffer): string => createHash("sha256").update(bytes).digest("hex");

export async function send(service: TestService, sending: Sending): Promise<Answer> {
  const { method = "GET", url, by = "owner", headers = {}, bytes } = sending;
  const authorization = `Bearer ${service.firm.people[by].token}`;
  const { port } = service.app.server.address() as AddressInfo;
  const length = { "content-length": String(bytes?.length ?? 0) };
  const sent = request({
    ...{ host: "127.0.0.1", port, method, path: url, agent: false },
    headers: { authorization, connection: "close", ...(bytes ? length : {}), ...headers },
  });
  const reply = await new Promise<IncomingMessage>((resolve, reject) => {
    // Who is refused early may still be sending: the answer counts, if there is one.
    sent.once("response", resolve).once("error", reject).end(bytes);
  });
  return { status: reply.statusCode ?? 0, headers: reply.headers, bytes: await buffer(reply) };
}

/** The same without a connection: what no client can send over one and be answered. */
export async function sendInside(service: TestService, sending: Sending): Promise<Answer> {
  const { method = "GET", url, by = "owner", headers = {}, bytes } = sending;
  const authorization = `Bearer ${service.firm.people[by].token}`;
  const reply = await service.app.inject({
    ...{ method, url, headers: { authorization, ...headers } },
    ...(bytes ? { payload: bytes } : {}),
  });
  return { status: reply.statusCode, headers: reply.headers, bytes: reply.rawPayload };
}

export interface Jobs {
  photos: string;
  pieces: string;
  documents: string;
}

interface Told {
  type: string;
  bytes: Buffer;
  name?: string;
}

/** A form as a browser sends it (RFC 7578). */
export const formBody = (boundary: string, { type, bytes, name = "a.bin" }: Told): Buffer =>
  Buffer.concat([
    Buffer.from(
      `--${boundary}\r\nContent-Disposition: form-data; name="file"; filename="${name}"\r\n` +
        `Content-Type: ${type}\r\n\r\n`,
    ),
    ...[bytes, Buffer.from(`\r\n--${boundary}--\r\n`)],
  ]);

/** Each route as what it is sent. */
export const routesOf = (jobs: Jobs): Record<string, (told: Told) => Sending> => ({
  photo: ({ type, bytes }) => ({
    ...{ method: "PUT", url: `/api/v1/jobs/${jobs.photos}/photos/${hashOf(bytes)}`, bytes },
    ...{ headers: { "content-type": type }, by: "installer" },
  }),
  piece: ({ bytes }) => ({
    ...{ method: "PATCH", by: "installer", bytes },
    url: `/api/v1/jobs/${jobs.pieces}/photo-uploads/${hashOf(bytes)}`,
    headers: {
      "content-type": "application/partial-upload",
      ...{ "upload-offset": "0", "upload-length": String(bytes.length) },
    },
  }),
  document: ({ type, bytes, name = "a" }) => ({
    ...{ method: "PUT", bytes, headers: { "content-type": type } },
    url:
      `/api/v1/jobs/${jobs.documents}/documents/${hashOf(bytes)}` +
      `?name=${encodeURIComponent(name)}`,
  }),
  mark: ({ type, bytes }) => ({
    ...{ method: "PUT", url: "/api/v1/firm/mark", bytes, headers: { "content-type": type } },
  }),
  documentForm: (told) => form(`/jobs/${jobs.documents}/documents`, told),
  markForm: (told) => form("/firm/mark", told),
});

export const form = (url: string, told: Told): Sending => ({
  ...{ method: "POST", url, bytes: formBody("hostile", told) },
  headers: { "content-type": "multipart/form-data; boundary=hostile" },
});

const LEAKS = /node_modules|\n {4}at |prisma\.|SELECT |\/src\//;

/** What is wrong with a refusal: another status, no problem document, or a look inside. */
export function faultOfRefusal({ status, headers, bytes }: Answer): string | undefined {
  const text = bytes.subarray(0, 5000).toString();
  if (status < 400 || status > 499) return `answered ${status}: ${text.slice(0, 200)}`;
  if (LEAKS.test(text)) return `shows its inside: ${text.slice(0, 300)}`;
  const type = String(headers["content-type"]);
  // A form is shown again as a page, with what is wrong.
  if (type.startsWith("text/html")) return status === 422 ? undefined : `a page with ${status}`;
  if (!type.startsWith("application/problem+json")) return `answered as ${type}`;
  const problem = JSON.parse(bytes.toString());
  const isTold = problem.status === status && /^\/problems\/[a-z-]+$/.test(problem.type);
  return isTold && problem.detail && problem.instance ? undefined : `a problem ${text}`;
}
