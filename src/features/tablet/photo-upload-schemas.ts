import { Readable } from "node:stream";
import { z } from "zod";
import { PHOTO_BYTES_MOST } from "../photos/schemas.ts";

export const PIECE_TYPE = "application/partial-upload";

const count = (most: number) =>
  z
    .string()
    .regex(/^\d{1,9}$/, "must be a whole number of bytes")
    .transform(Number)
    .refine((bytes) => bytes <= most, `must be at most ${most} bytes`);

/** Named as in the IETF's draft "Resumable Uploads for HTTP" (from memory). */
export const PieceHeaders = z.looseObject({
  "upload-offset": count(PHOTO_BYTES_MOST).describe("where in the photo this piece begins"),
  "upload-length": count(PHOTO_BYTES_MOST)
    .refine((bytes) => bytes > 0, "must be at least 1 byte")
    .describe("length of the whole photo"),
});

export const Piece = z
  .instanceof(Readable, { error: `must be sent as ${PIECE_TYPE}` })
  .meta({ type: "string", format: "binary" });
