// A time-stamp service of one's own: openssl's, with root, issuer and stamping certificate made by
// openssl, behind a small HTTP server.
import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createServer, type IncomingMessage, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { buffer } from "node:stream/consumers";
import * as pki from "pkijs";

export const hasOpenssl = (): boolean => spawnSync("openssl", ["version"]).status === 0;
export const NO_OPENSSL = "this machine has no openssl, which plays the time-stamp service here";

/** Numbers that IANA sets aside for examples (RFC 5612). */
export const POLICY = "1.3.6.1.4.1.32473.1";
export const OTHER_POLICY = "1.3.6.1.4.1.32473.2";

const CONFIG = `
[req]
distinguished_name = name
prompt = no
[name]
CN = unused
[issuer]
basicConstraints = critical, CA:TRUE
keyUsage = critical, keyCertSign, cRLSign
subjectKeyIdentifier = hash
[stamper]
basicConstraints = critical, CA:FALSE
keyUsage = critical, digitalSignature
extendedKeyUsage = critical, timeStamping
subjectKeyIdentifier = hash
[signer]
basicConstraints = critical, CA:FALSE
keyUsage = critical, digitalSignature
[service]
serial = serial
signer_cert = stamper.pem
signer_key = stamper.key
certs = chain.pem
signer_digest = sha256
default_policy = ${POLICY}
other_policies = ${OTHER_POLICY}
digests = sha256, sha512
accuracy = secs:1
ordering = yes
tsa_name = yes
ess_cert_id_alg = sha256
`;

/** What the service does instead of stamping what it is asked for. */
export type Mood =
  | "stamps"
  | "down"
  | "redirects"
  | "chatters"
  | "repeats"
  | "lies"
  | "forgets the nonce";

export interface StampService {
  url: string;
  folder: string;
  /** Path of its root certificate. */
  roots: string;
  mood: Mood;
  requests: { type: string | undefined; authorization: string | undefined }[];
  stop(): Promise<void>;
}

/** Runs openssl in a folder; throws what it said where it fails. */
export const openssl = (folder: string, ...args: string[]): string =>
  execFileSync("openssl", args, { cwd: folder, encoding: "utf8", stdio: "pipe" });

/** @param within folder in which the service keeps its keys */
export async function startStampService(within: string): Promise<StampService> {
  const folder = join(within, "stamps");
  makeCertificates(folder);
  const service = { folder, roots: join(folder, "root.pem"), mood: "stamps" } as StampService;
  service.requests = [];
  const server = createServer((request, reply) => void answer(service, request, reply));
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  service.url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/stamp`;
  service.stop = () =>
    new Promise((resolve) => {
      server.close(() => resolve());
      server.closeAllConnections();
    });
  return service;
}

export function makeCertificates(folder: string): void {
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "service.cnf"), CONFIG);
  writeFileSync(join(folder, "serial"), "01\n");
  const root = { name: "root", issuer: "root", kind: "issuer" };
  for (const made of [
    root,
    { name: "issuer", issuer: "root", kind: "issuer" },
    { name: "stamper", issuer: "issuer", kind: "stamper" },
    { name: "signer", issuer: "issuer", kind: "signer" },
  ]) {
    makeCertificate(folder, made);
  }
  const chain = ["issuer.pem", "stamper.pem"].map((name) => readFileSync(join(folder, name)));
  writeFileSync(join(folder, "chain.pem"), Buffer.concat(chain));
}

function makeCertificate(
  folder: string,
  { name, issuer, kind }: { name: string; issuer: string; kind: string },
): void {
  // The stamper's key is RSA, the others' are elliptic: both kinds are met.
  if (kind === "stamper") openssl(folder, "genrsa", "-out", `${name}.key`, "2048");
  else openssl(folder, "ecparam", "-name", "prime256v1", "-genkey", "-out", `${name}.key`);
  const own = ["-key", `${name}.key`, "-subj", `/O=Time/CN=${name} of time`];
  const config = ["-config", "service.cnf"];
  const days = ["-days", "3650"];
  if (name === issuer) {
    const more = ["-x509", ...days, "-extensions", kind, "-out", `${name}.pem`];
    openssl(folder, "req", ...own, ...config, ...more);
    return;
  }
  openssl(folder, "req", "-new", ...own, ...config, "-out", `${name}.csr`);
  const by = ["-CA", `${issuer}.pem`, "-CAkey", `${issuer}.key`, "-CAcreateserial", ...days];
  const extensions = ["-extfile", "service.cnf", "-extensions", kind];
  openssl(
    folder,
    "x509",
    "-req",
    "-in",
    `${name}.csr`,
    ...by,
    ...extensions,
    "-out",
    `${name}.pem`,
  );
}

/** openssl's reply to a query that lies in a file of the folder. */
export function stampQuery(folder: string, query: string, ...more: string[]): Buffer {
  const config = ["-config", "service.cnf", "-section", "service"];
  openssl(folder, "ts", "-reply", ...config, "-queryfile", query, ...more, "-out", "reply.tsr");
  return readFileSync(join(folder, "reply.tsr"));
}

async function answer(
  service: StampService,
  request: IncomingMessage,
  reply: ServerResponse,
): Promise<void> {
  const { folder, mood } = service;
  const { authorization } = request.headers;
  service.requests.push({ type: request.headers["content-type"], authorization });
  const query = await buffer(request);
  if (mood === "down") reply.writeHead(503).end();
  else if (mood === "redirects") reply.writeHead(307, { location: "/elsewhere" }).end();
  else if (mood === "chatters") reply.writeHead(200).end(Buffer.alloc(1_000_000));
  else {
    if (mood !== "repeats") writeFileSync(join(folder, "query.tsq"), query);
    if (mood === "lies") {
      writeFileSync(join(folder, "other"), "something else");
      const make = ["ts", "-query", "-data", "other", "-sha256", "-cert", "-out", "query.tsq"];
      openssl(folder, ...make);
    }
    if (mood === "forgets the nonce") {
      const { messageImprint } = pki.TimeStampReq.fromBER(new Uint8Array(query).buffer);
      const digest = Buffer.from(messageImprint.hashedMessage.valueBlock.valueHexView);
      const asked = ["-digest", digest.toString("hex"), "-sha256", "-cert", "-no_nonce"];
      openssl(folder, "ts", "-query", ...asked, "-out", "query.tsq");
    }
    const stamp = stampQuery(folder, "query.tsq");
    reply.writeHead(200, { "content-type": "application/timestamp-reply" }).end(stamp);
  }
}
