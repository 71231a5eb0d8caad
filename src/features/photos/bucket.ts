// Files in a bucket that speaks the S3 protocol. The one place that knows s3mini.
import { Readable } from "node:stream";
import { S3mini } from "s3mini";
import { Problem } from "../../errors.ts";
import { type FileStorage, placeOf } from "./file-storage.ts";

const ANSWER_WITHIN_MS = 30_000;
const RETRY_AFTER_S = 30;

/** @param address https://<KEY>:<SECRET>@host/bucket?region=REGION, as PHOTO_BUCKET_URL has it */
export function bucket(address: string): FileStorage {
  const client = clientOf(new URL(address));
  return {
    keep: (name, bytes) =>
      answered(async () => {
        const there = await sizeOf(client, placeOf(name));
        if (there === bytes.length) return;
        // The storage itself refuses bytes that are not those of the hash.
        const checksum = Buffer.from(name.sha256, "hex").toString("base64");
        const headers = { "x-amz-checksum-sha256": checksum };
        await client.putObject(placeOf(name), bytes, TYPE, undefined, headers);
      }),
    open: (name) => Readable.from(bytesOf(client, placeOf(name)), { objectMode: false }),
    size: (name) => answered(() => sizeOf(client, placeOf(name))),
  };
}

const TYPE = "application/octet-stream";

function clientOf({ protocol, host, pathname, username, password, searchParams }: URL): S3mini {
  return new S3mini({
    accessKeyId: decodeURIComponent(username),
    secretAccessKey: decodeURIComponent(password),
    endpoint: `${protocol}//${host}${pathname.replace(/\/$/, "")}`,
    region: searchParams.get("region") ?? "auto",
    requestAbortTimeout: ANSWER_WITHIN_MS,
  });
}

async function sizeOf(client: S3mini, key: string): Promise<number | undefined> {
  return client.getContentLength(key).catch((error: { cause?: { status?: unknown } }) => {
    if (error.cause?.status === 404) return undefined;
    throw error;
  });
}

async function* bytesOf(client: S3mini, key: string): AsyncGenerator<Uint8Array> {
  const response = await answered(() => client.getObjectResponse(key));
  if (!response?.body) throw new Error(`There is no ${key} in the bucket.`);
  yield* response.body;
}

/** What the storage does not answer now it may answer later: whoever asked tries again. */
async function answered<T>(ask: () => Promise<T>): Promise<T> {
  try {
    return await ask();
  } catch (cause) {
    const detail = "The storage of photos and documents does not answer. Nothing was lost.";
    throw Object.assign(new Problem("busy", detail, { retryAfterS: RETRY_AFTER_S }), { cause });
  }
}
