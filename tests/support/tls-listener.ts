// Servers that speak TLS with a certificate of whoever made it, and count what they are told after
// the handshake.
import { mkdirSync, readFileSync } from "node:fs";
import { type AddressInfo, createServer, type Server, type Socket } from "node:net";
import { join } from "node:path";
import { createServer as createTlsServer, TLSSocket } from "node:tls";
import { openssl } from "./time-stamper.ts";

export interface Identity {
  key: Buffer;
  cert: Buffer;
}

/** A certificate for `localhost` that signs itself. */
export function selfSigned(folder: string): Identity {
  mkdirSync(folder, { recursive: true });
  const key = ["-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes"];
  const names = ["-subj", "/CN=localhost", "-addext", "subjectAltName=DNS:localhost"];
  const files = ["-keyout", "own.key", "-out", "own.pem"];
  openssl(folder, "req", "-x509", "-days", "2", ...key, ...names, ...files);
  return {
    key: readFileSync(join(folder, "own.key")),
    cert: readFileSync(join(folder, "own.pem")),
  };
}

export interface TlsListener {
  port: number;
  /** What was told after the handshake, by whoever believed the certificate. */
  told(): string;
  stop(): Promise<void>;
}

/** How a protocol comes to speak TLS on a connection that begins without; then what it answers. */
export interface Upgrade {
  greeting?: string;
  /** What is answered in plain to what came; undefined where that asks for TLS. */
  plain(came: string): string | undefined;
  yes: string;
}

export async function listenForTls(
  identity: Identity,
  speaks: Upgrade | { hello?: string } = {},
): Promise<TlsListener> {
  let heard = "";
  const sockets = new Set<Socket>();
  const listen = (socket: Socket): void => {
    sockets.add(socket);
    socket.on("error", () => undefined);
    socket.on("data", (data) => {
      heard += data.toString("latin1");
    });
  };
  const server: Server =
    "yes" in speaks
      ? createServer((socket) => upgradeWhenAsked(socket, identity, speaks, listen))
      : createTlsServer(identity, (socket) => {
          listen(socket);
          if (speaks.hello) socket.write(speaks.hello);
        });
  server.on("connection", (socket: Socket) => sockets.add(socket));
  server.on("tlsClientError", () => undefined);
  await new Promise<void>((resolve) => server.listen(0, "localhost", resolve));
  return {
    port: (server.address() as AddressInfo).port,
    told: () => heard,
    stop: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        for (const socket of sockets) socket.destroy();
      }),
  };
}

function upgradeWhenAsked(
  socket: Socket,
  identity: Identity,
  { greeting, plain, yes }: Upgrade,
  listen: (socket: Socket) => void,
): void {
  socket.on("error", () => undefined);
  if (greeting) socket.write(greeting);
  const hear = (data: Buffer): void => {
    const answer = plain(data.toString("latin1"));
    if (answer !== undefined) {
      socket.write(answer);
      return;
    }
    socket.off("data", hear);
    socket.write(yes);
    listen(new TLSSocket(socket, { isServer: true, ...identity }));
  };
  socket.on("data", hear);
}
