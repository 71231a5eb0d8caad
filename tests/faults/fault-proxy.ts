// A stretch of bad network on loopback: a TCP proxy that does to each connection what it is told.
import { once } from "node:events";
import { type AddressInfo, connect, createServer, type Server, type Socket } from "node:net";
import { setTimeout as pause } from "node:timers/promises";

/** What happens to one connection; nothing named, and it goes through. */
export interface Fault {
  /** Bytes from the sender that still pass; then both ends are cut off. */
  cutRequestAt?: number;
  /** Bytes of the reply that still pass. 0: the server has done its work and the reply is lost. */
  cutReplyAt?: number;
  /** Before anything passes. */
  delayMs?: number;
  /** The server gets the same request by a second connection, side by side. */
  twice?: boolean;
  /** A whole HTTP reply by somebody else; the server is not asked. */
  answer?: string;
}

export class FaultProxy {
  #server: Server;
  #target: number;
  #faults: Fault[] = [];
  #open = new Set<Socket>();

  private constructor(server: Server, target: number) {
    this.#server = server;
    this.#target = target;
  }

  static async before(target: number): Promise<FaultProxy> {
    const server = createServer({ allowHalfOpen: true });
    const proxy = new FaultProxy(server, target);
    server.on("connection", (client) => proxy.#carry(client));
    server.listen(0, "127.0.0.1");
    await once(server, "listening");
    return proxy;
  }

  get port(): number {
    return (this.#server.address() as AddressInfo).port;
  }

  /** For the connections to come, one each. */
  meet(...faults: Fault[]): void {
    this.#faults.push(...faults);
  }

  async stop(): Promise<void> {
    for (const socket of this.#open) socket.destroy();
    this.#server.close();
    await once(this.#server, "close");
  }

  async #carry(client: Socket): Promise<void> {
    const fault = this.#faults.shift() ?? {};
    this.#watch(client);
    if (fault.delayMs) await pause(fault.delayMs);
    if (fault.answer !== undefined) {
      const { answer } = fault;
      client.once("data", () => client.end(answer));
      return;
    }
    const server = this.#reach();
    if (fault.twice) this.#copy(client, this.#reach());
    const cut = (): void => {
      client.destroy();
      server.destroy();
    };
    pass(client, server, fault.cutRequestAt, cut);
    pass(server, client, fault.cutReplyAt, cut);
  }

  /** The same bytes to a second connection, whose replies nobody reads. */
  #copy(client: Socket, second: Socket): void {
    client.on("data", (bytes: Buffer) => second.write(bytes));
    client.on("end", () => second.end());
    second.resume();
  }

  #reach(): Socket {
    const socket = connect({ port: this.#target, host: "127.0.0.1", allowHalfOpen: true });
    this.#watch(socket);
    return socket;
  }

  #watch(socket: Socket): void {
    this.#open.add(socket);
    // A cut connection tells of it on the other side; that is what is wanted.
    socket.on("error", () => socket.destroy());
    socket.on("close", () => this.#open.delete(socket));
  }
}

/** Passes bytes on until `most` of them; what is beyond is cut off together with both ends. */
function pass(from: Socket, to: Socket, most: number | undefined, cut: () => void): void {
  let left = most ?? Number.POSITIVE_INFINITY;
  if (left === 0 && most !== undefined) {
    from.once("data", cut);
    return;
  }
  from.on("data", (bytes: Buffer) => {
    if (left <= 0) return;
    const part = bytes.subarray(0, left);
    left -= part.length;
    if (left > 0) to.write(part);
    else to.write(part, cut);
  });
  from.on("end", () => to.end());
}

export const htmlPage = (words: string): string =>
  `HTTP/1.1 200 OK\r\ncontent-type: text/html\r\nconnection: close\r\n\r\n<html>${words}</html>`;

export const refusing = (status: 429 | 500 | 502 | 503): string =>
  `HTTP/1.1 ${status} Refused\r\nretry-after: 1\r\nconnection: close\r\ncontent-length: 0\r\n\r\n`;
