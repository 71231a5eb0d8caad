// A form with a file, as a browser sends it without any script (RFC 7578). The body is read whole
// within its bound, and taken apart by the parser that Node's own fetch has.
import type { FastifyRequest } from "fastify";
import { Problem } from "../errors.ts";
import type { App } from "./feature.ts";
import { hasFewParts } from "./form-parts.ts";
import { withLineFeeds } from "./line-ends.ts";

export interface FormFile {
  name: string;
  bytes: Buffer;
}

export interface FilledForm {
  fields: Record<string, string>;
  files: FormFile[];
}

/** What the parts say of themselves comes on top of the files. */
const AROUND_FILES_BYTES = 64 * 1024;

/** Within `routes`, forms with files of at most so many bytes in all are taken. */
export async function withFormFiles(
  app: App,
  bytesMost: number,
  routes: (within: App, bodyLimit: number) => void,
): Promise<void> {
  const bodyLimit = bytesMost + AROUND_FILES_BYTES;
  await app.register(async (within) => {
    within.addContentTypeParser(
      "multipart/form-data",
      { parseAs: "buffer", bodyLimit },
      (_request, body, done) => done(null, body),
    );
    routes(within as App, bodyLimit);
  });
}

/** The form's fields and files; an empty file field is no file. */
export async function filledForm(request: FastifyRequest): Promise<FilledForm> {
  const fields = new Map<string, string>();
  const files: FormFile[] = [];
  for (const [name, value] of await formOf(request)) {
    if (typeof value === "string") fields.set(name, withLineFeeds(value));
    else if (value.size > 0) {
      files.push({ name: value.name, bytes: Buffer.from(await value.arrayBuffer()) });
    }
  }
  return { fields: Object.fromEntries(fields), files };
}

async function formOf({ headers, body }: FastifyRequest): Promise<FormData> {
  const type = headers["content-type"] ?? "";
  const unreadable = () =>
    new Problem("unreadable-body", "The form cannot be read. Send it again.");
  // A form without a file comes as text, parsed already.
  if (!Buffer.isBuffer(body) || !hasFewParts(type, body)) throw unreadable();
  const read = new Response(body as Uint8Array<ArrayBuffer>, { headers: { "content-type": type } });
  return read.formData().catch(() => {
    throw unreadable();
  });
}
