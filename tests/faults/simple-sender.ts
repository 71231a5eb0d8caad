// As little of a tablet as can send: what has no readable reply is not known to be stored.
import { request } from "node:http";
import type { OpResults, TabletOp } from "../../src/features/tablet/schemas.ts";

/** What a sender signs in with; a long run outlives a token. */
export interface Pass {
  token: string;
  renew(): Promise<void>;
}

export class SimpleSender {
  #port: number;
  #pass: Pass;

  constructor(port: number, pass: Pass) {
    this.#port = port;
    this.#pass = pass;
  }

  /** The whole request as it goes over the line. */
  bytesOf(ops: readonly TabletOp[]): number {
    const body = JSON.stringify({ ops });
    const lines = Object.entries(this.#headers(body)).map(([name, value]) => `${name}: ${value}`);
    const head = ["POST /api/v1/tablet/ops HTTP/1.1", ...lines, "", ""].join("\r\n");
    return Buffer.byteLength(head) + Buffer.byteLength(body);
  }

  /** Undefined where nothing can be said: no connection, no reply, or not the service's. */
  async send(ops: readonly TabletOp[]): Promise<OpResults | undefined> {
    const body = JSON.stringify({ ops });
    const reply = await this.#post(body).catch(() => undefined);
    if (reply?.status === 401) {
      await this.#pass.renew();
      return this.send(ops);
    }
    if (reply?.status !== 200) return undefined;
    try {
      const results = JSON.parse(reply.text) as OpResults;
      return Array.isArray(results.results) ? results : undefined;
    } catch {
      return undefined;
    }
  }

  #headers(body: string): Record<string, string> {
    return {
      authorization: `Bearer ${this.#pass.token}`,
      "content-type": "application/json",
      "content-length": String(Buffer.byteLength(body)),
      host: "127.0.0.1",
      connection: "close",
    };
  }

  #post(body: string): Promise<{ status: number | undefined; text: string }> {
    return new Promise((resolve, reject) => {
      const headers = this.#headers(body);
      const to = { port: this.#port, host: "127.0.0.1", path: "/api/v1/tablet/ops", agent: false };
      const sent = request({ ...to, method: "POST", headers }, (reply) => {
        let text = "";
        reply.setEncoding("utf8");
        reply.on("data", (part: string) => (text += part));
        reply.on("end", () => resolve({ status: reply.statusCode, text }));
        reply.on("error", reject);
        reply.on("aborted", () => reject(new Error("cut off")));
      });
      sent.on("error", reject);
      sent.end(body);
    });
  }
}
