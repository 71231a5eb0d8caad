// Sends photos in pieces over real connections, which it can break at any byte.
import { createCipheriv, createHash } from "node:crypto";
import { request as httpRequest, type IncomingHttpHeaders } from "node:http";
import sharp from "sharp";

export const sha256Of = (bytes: Buffer): string => createHash("sha256").update(bytes).digest("hex");

/** Bytes that look like chance and are the same for the same seed. */
export function noise(length: number, seed: number): Buffer {
  const key = createHash("sha256").update(String(seed)).digest();
  return createCipheriv("aes-256-ctr", key, Buffer.alloc(16)).update(Buffer.alloc(length));
}

/** A picture of about so many bytes that cannot be packed. */
export async function noisePicture(bytes: number, seed: number): Promise<Buffer> {
  const side = Math.ceil(Math.sqrt(bytes / 3));
  const raw = { width: side, height: side, channels: 3 as const };
  return sharp(noise(side * side * 3, seed), { raw })
    .png({ compressionLevel: 0 })
    .toBuffer();
}

export interface UploadReply {
  status: number;
  offset: number;
  complete: boolean;
  headers: IncomingHttpHeaders;
  body: { type?: string; errors?: { pointer: string }[] };
}

export interface SentPiece {
  offset: number;
  /** Of the whole. */
  length: number;
  bytes: Buffer;
  query?: string;
  headers?: Record<string, string | undefined>;
  /** Break the connection after so many bytes of the body. */
  cutAfter?: number;
  /** Break the connection once all is sent, without waiting for the reply. */
  loseReply?: boolean;
}

export class UploadSender {
  readonly address: string;
  readonly token: string;

  constructor(address: string, token: string) {
    this.address = address;
    this.token = token;
  }

  pathOf(jobId: string, sha256: string): string {
    return `${this.address}/api/v1/jobs/${jobId}/photo-uploads/${sha256}`;
  }

  ask(jobId: string, sha256: string): Promise<UploadReply> {
    return this.#send("HEAD", this.pathOf(jobId, sha256), {}, (sent) => sent.end());
  }

  /** Rejects when the connection was broken. */
  send(jobId: string, sha256: string, piece: SentPiece): Promise<UploadReply> {
    const { bytes, cutAfter, loseReply } = piece;
    const headers = {
      "content-type": "application/partial-upload",
      "content-length": String(bytes.length),
      "upload-offset": String(piece.offset),
      "upload-length": String(piece.length),
      ...piece.headers,
    };
    const url = `${this.pathOf(jobId, sha256)}${piece.query ?? ""}`;
    return this.#send("PATCH", url, headers, (sent) => {
      if (cutAfter !== undefined) {
        sent.write(bytes.subarray(0, cutAfter), () => sent.destroy());
        if (cutAfter === 0) sent.destroy();
      } else if (loseReply) {
        sent.end(bytes, () => sent.destroy());
      } else {
        sent.end(bytes);
      }
    });
  }

  #send(
    method: string,
    url: string,
    headers: Record<string, string | undefined>,
    write: (sent: ReturnType<typeof httpRequest>) => void,
  ): Promise<UploadReply> {
    const given = Object.entries({ authorization: `Bearer ${this.token}`, ...headers });
    return new Promise((resolve, reject) => {
      const sent = httpRequest(url, {
        method,
        agent: false,
        headers: Object.fromEntries(given.filter(([, value]) => value !== undefined)),
      });
      sent.on("response", (reply) => {
        const pieces: Buffer[] = [];
        reply.on("data", (piece: Buffer) => pieces.push(piece));
        reply.on("error", reject);
        reply.on("end", () => {
          const text = Buffer.concat(pieces).toString();
          resolve({
            status: reply.statusCode ?? 0,
            offset: Number(reply.headers["upload-offset"]),
            complete: reply.headers["upload-complete"] === "?1",
            headers: reply.headers,
            body: text === "" ? {} : JSON.parse(text),
          });
        });
      });
      sent.on("error", reject);
      sent.on("close", () => reject(new Error("the connection was broken")));
      write(sent);
    });
  }
}
