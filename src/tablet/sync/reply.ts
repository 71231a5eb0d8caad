// Requirement: a reply counts only when it is the service's own. Between the tablet and the service
// stand hotel sign-on pages, proxies and mobile carriers that answer 200 with something else.

import { phrase, retold } from "../language/spoken.ts";

export interface Answered {
  status: number;
  headers: Headers;
  /** Parsed JSON; undefined for a reply without a body. */
  body: unknown;
  /** RFC 3339, of the server's Date header. */
  serverAt: string | undefined;
}

export type Reply =
  | ({ kind: "answered" } & Answered)
  /** No signal, or the connection broke. */
  | { kind: "offline" }
  /** Not from the service. */
  | { kind: "stranger" }
  | { kind: "signed-out"; sentence: string }
  | { kind: "forbidden"; sentence: string }
  | { kind: "too-large" }
  /** 429, and any 5xx: try again later. */
  | { kind: "busy"; retryAfterMs: number | undefined }
  /** Any other refusal by the service. */
  | ({ kind: "refused"; sentence: string } & Answered);

export async function readReply(response: Response): Promise<Reply> {
  const { status, headers } = response;
  if (status === 429 || (status >= 500 && status !== 511)) {
    return { kind: "busy", retryAfterMs: retryAfterMs(headers) };
  }
  const isJson = /^application\/(?:[\w.+-]+\+)?json\b/.test(headers.get("content-type") ?? "");
  const isBare = status === 204 || status === 304;
  if (response.type === "opaqueredirect" || response.redirected || (!isJson && !isBare)) {
    return { kind: "stranger" };
  }
  // A reply to HEAD says that it would be JSON and has none.
  const text = await response.text();
  let body: unknown;
  try {
    body = text === "" ? undefined : JSON.parse(text);
  } catch {
    return { kind: "stranger" };
  }
  return sorted({ status, headers, body, serverAt: timeOf(headers) });
}

function sorted(answered: Answered): Reply {
  const { status, body } = answered;
  const sentence = detailOf(body) ?? phrase("tabletSync.refused", { status });
  if (status < 300 || status === 304) return { kind: "answered", ...answered };
  if (status < 400 || status === 407 || status === 511) return { kind: "stranger" };
  if (status === 401) return { kind: "signed-out", sentence };
  if (status === 403) return { kind: "forbidden", sentence };
  if (status === 413) return { kind: "too-large" };
  return { kind: "refused", sentence, ...answered };
}

/** RFC 9457: `detail` says what is wrong and the way out. */
function detailOf(body: unknown): string | undefined {
  const detail = isRecord(body) ? body.detail : undefined;
  return typeof detail === "string" ? retold(detail) : undefined;
}

/** RFC 9110, 10.2.3: seconds or a date; the date is measured from the server's own. */
function retryAfterMs(headers: Headers): number | undefined {
  const text = headers.get("retry-after") ?? "";
  if (/^\d{1,9}$/.test(text)) return Number(text) * 1000;
  const wait = Date.parse(text) - Date.parse(headers.get("date") ?? "");
  return Number.isNaN(wait) ? undefined : Math.max(0, wait);
}

function timeOf(headers: Headers): string | undefined {
  const time = Date.parse(headers.get("date") ?? "");
  return Number.isNaN(time) ? undefined : new Date(time).toISOString();
}

export const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
