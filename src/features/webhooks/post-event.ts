import { request as requestPlain } from "node:http";
import { request as requestSecure } from "node:https";
import { isIP } from "node:net";
import { isPublicAddress } from "../../public-network.ts";
import { NotPublic, publicLookup } from "./public-address.ts";

const TIMEOUT_MS = 15_000;
/** Of the answer only its status matters; more than this is not read. */
const ANSWER_MOST_BYTES = 16_384;

export type Posted = { ok: true; status: number } | { ok: false; status?: number; error: string };

export interface PostRequest {
  url: string;
  body: string;
  headers: Readonly<Record<string, string>>;
  /** Only for tries on one's own machine. */
  allowInternal: boolean;
}

/** One attempt; follows no redirect, since that would lead past the check of the address. */
export function postEvent({ url, body, headers, allowInternal }: PostRequest): Promise<Posted> {
  const target = new URL(url);
  const host = target.hostname.replace(/^\[|\]$/g, "");
  if (!allowInternal && isIP(host) !== 0 && !isPublicAddress(host)) {
    return Promise.resolve({ ok: false, error: new NotPublic(host).message });
  }
  const send = target.protocol === "https:" ? requestSecure : requestPlain;
  return new Promise((resolve) => {
    const fail = (error: string, status?: number) =>
      resolve({ ok: false, error: error.slice(0, 500), ...(status ? { status } : {}) });
    const outgoing = send(
      target,
      {
        method: "POST",
        headers: { ...headers, "content-length": Buffer.byteLength(body) },
        timeout: TIMEOUT_MS,
        agent: false,
        ...(allowInternal ? {} : { lookup: publicLookup }),
      },
      (answer) => {
        const status = answer.statusCode ?? 0;
        let read = 0;
        answer.on("data", (part: Buffer) => {
          read += part.length;
          if (read > ANSWER_MOST_BYTES) outgoing.destroy();
        });
        answer.resume();
        if (status >= 200 && status < 300) resolve({ ok: true, status });
        else fail(status >= 300 && status < 400 ? "redirects are not followed" : "", status);
      },
    );
    const deadline = setTimeout(() => outgoing.destroy(new Error("no answer in time")), TIMEOUT_MS);
    outgoing.on("timeout", () => outgoing.destroy(new Error("no answer in time")));
    outgoing.on("error", (error) => fail(error.message));
    outgoing.on("close", () => clearTimeout(deadline));
    outgoing.end(body);
  });
}
