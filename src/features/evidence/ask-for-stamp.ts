// The operator's time-stamp service: whom to ask, and asking it (RFC 3161, 2.4.1 and 3.4, from
// memory). The operator names the address, so it may be an internal one; but no redirect is
// followed, and neither time nor answer is unbounded.
import { createHash, randomBytes } from "node:crypto";
import { readFileSync } from "node:fs";
import * as asn1 from "asn1js";
import * as pki from "pkijs";
import type { Config } from "../../config.ts";
import { ownBytes } from "../../verify/own-bytes.ts";
import { checkTimeStamp } from "../../verify/time-stamp.ts";

export interface TimeStampService {
  url: URL;
  /** As bags name it: its address may hold what is nobody's business. */
  name: string;
  authorization?: string;
  policy?: string;
  /** PEM. */
  roots?: string;
}

/** `response` is the service's, DER; `problem` one sentence about why there is none. */
export type Asked = { ok: true; response: Buffer; at: Date } | { ok: false; problem: string };

const ANSWER_WITHIN_MS = 10_000;
const ANSWER_MOST_BYTES = 64 * 1024;
const SHA_256 = "2.16.840.1.101.3.4.2.1";

export function timeStampService(config: Config): TimeStampService | undefined {
  const { TIME_STAMP_URL, TIME_STAMP_POLICY, TIME_STAMP_CERTIFICATES } = config;
  if (TIME_STAMP_URL === undefined) return undefined;
  const url = new URL(TIME_STAMP_URL);
  const user = `${decodeURIComponent(url.username)}:${decodeURIComponent(url.password)}`;
  url.username = "";
  url.password = "";
  return {
    ...{ url, name: url.origin },
    ...(user === ":" ? {} : { authorization: `Basic ${Buffer.from(user).toString("base64")}` }),
    ...(TIME_STAMP_POLICY === undefined ? {} : { policy: TIME_STAMP_POLICY }),
    ...(TIME_STAMP_CERTIFICATES === undefined
      ? {}
      : { roots: readFileSync(TIME_STAMP_CERTIFICATES, "utf8") }),
  };
}

/** A stamp that holds, or why there is none. */
export async function askForStamp(service: TimeStampService, stamped: Buffer): Promise<Asked> {
  try {
    return { ok: true, ...(await givenStamp(service, stamped)) };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    const cause = error instanceof Error && error.cause instanceof Error ? error.cause.message : "";
    return { ok: false, problem: `${service.name} gave no time stamp: ${why} ${cause}`.trim() };
  }
}

async function givenStamp(service: TimeStampService, stamped: Buffer) {
  const nonce = randomBytes(16);
  // A nonce is an integer: its first byte keeps it positive and of full length.
  nonce[0] = 0x40 | ((nonce[0] ?? 0) & 0x3f);
  const response = await post(service, requestFor(stamped, nonce, service.policy));
  const check = await checkTimeStamp(response, stamped, service.roots);
  if (!check.ok) throw new Error(check.problem);
  const { stamp } = check;
  if (stamp.nonce !== nonce.toString("hex")) throw new Error("It answers another request.");
  if (service.policy !== undefined && stamp.policy !== service.policy) {
    throw new Error(`It is given under the policy ${stamp.policy}.`);
  }
  if (stamp.chain?.ok === false) {
    throw new Error(`It does not lead to TIME_STAMP_CERTIFICATES: ${stamp.chain.problem}`);
  }
  return { response, at: stamp.at };
}

function requestFor(stamped: Buffer, nonce: Buffer, policy: string | undefined): ArrayBuffer {
  const request = new pki.TimeStampReq({
    version: 1,
    messageImprint: new pki.MessageImprint({
      hashAlgorithm: new pki.AlgorithmIdentifier({
        algorithmId: SHA_256,
        algorithmParams: new asn1.Null(),
      }),
      hashedMessage: new asn1.OctetString({
        valueHex: ownBytes(createHash("sha256").update(stamped).digest()),
      }),
    }),
    ...(policy === undefined ? {} : { reqPolicy: policy }),
    nonce: new asn1.Integer({ valueHex: ownBytes(nonce) }),
    certReq: true,
  });
  return request.toSchema().toBER(false);
}

async function post({ url, authorization }: TimeStampService, body: ArrayBuffer): Promise<Buffer> {
  const reply = await fetch(url, {
    ...{ method: "POST", body, redirect: "manual" },
    headers: {
      "content-type": "application/timestamp-query",
      ...(authorization === undefined ? {} : { authorization }),
    },
    signal: AbortSignal.timeout(ANSWER_WITHIN_MS),
  });
  if (reply.status !== 200 || !reply.body) {
    await reply.body?.cancel();
    throw new Error(`It answered with status ${reply.status}.`);
  }
  const parts: Uint8Array[] = [];
  let bytes = 0;
  for await (const part of reply.body) {
    bytes += part.length;
    if (bytes > ANSWER_MOST_BYTES)
      throw new Error(`Its answer exceeds ${ANSWER_MOST_BYTES} bytes.`);
    parts.push(part);
  }
  return Buffer.concat(parts);
}
