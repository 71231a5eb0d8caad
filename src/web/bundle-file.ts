import { createHash } from "node:crypto";
import { extname } from "node:path";
import { promisify } from "node:util";
import { constants, gzip } from "node:zlib";

export interface BundleFile {
  /** Its address on the server. */
  path: string;
  mediaType: string;
  bytes: Buffer;
  /** The same packed, where that is smaller. */
  packed?: Buffer;
  etag: string;
  /** immutable: its name holds its hash. revalidate: ask again each time, by ETag. */
  caching: "immutable" | "revalidate";
}

const MEDIA_TYPES: Readonly<Record<string, string>> = {
  "": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
  ".svg": "image/svg+xml",
  ".png": "image/png",
};

const pack = promisify(gzip);

export const hashOf = (content: Uint8Array | string): string =>
  createHash("sha256").update(content).digest("hex");

/** Packed once here instead of at every request. */
export const packedOf = (bytes: Uint8Array): Promise<Buffer> =>
  pack(bytes, { level: constants.Z_BEST_COMPRESSION });

export async function bundleFile(
  path: string,
  content: Uint8Array | string,
  caching: BundleFile["caching"],
): Promise<BundleFile> {
  const mediaType = MEDIA_TYPES[extname(path)];
  if (mediaType === undefined) throw new Error(`no media type is known for ${path}`);
  const bytes = Buffer.from(content);
  const packed = await packedOf(bytes);
  return {
    path,
    mediaType,
    bytes,
    etag: `"${hashOf(bytes)}"`,
    caching,
    ...(packed.length < bytes.length * 0.9 ? { packed } : {}),
  };
}
