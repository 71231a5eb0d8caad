import type { FastifyReply, FastifyRequest } from "fastify";
import { Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { PhotoParams, PhotoPlace } from "../photos/schemas.ts";
import {
  receivePiece,
  type UploadStanding,
  type UploadTarget,
  uploadStanding,
} from "./photo-upload.ts";
import { PIECE_TYPE, Piece, PieceHeaders } from "./photo-upload-schemas.ts";

const TAGS = ["Tablet"];
const ADDRESS = "/api/v1/jobs/:id/photo-uploads/:sha256";

export const photoUploadRoutes: Feature = async (app, { db, config, now }) => {
  // Handed on as it comes in: what arrived before a connection broke is not lost.
  app.addContentTypeParser(PIECE_TYPE, (_request, payload, done) => done(null, payload));

  const targetOf = (
    request: FastifyRequest,
    { id, sha256 }: { id: string; sha256: string },
  ): UploadTarget => ({
    db,
    home: config,
    session: signedIn(request),
    jobId: id,
    sha256,
  });

  app.head(ADDRESS, {
    config: { swagger: { exposeHeadRoute: true } },
    schema: {
      operationId: "readPhotoUpload",
      summary: "Ask how much of a photo has arrived",
      description:
        "Upload-Offset is where to go on; Upload-Complete is ?1 once the photo is in the job.",
      tags: TAGS,
      params: PhotoParams,
      response: { 204: noBody(), ...problems(401, 403, 404, 409, 422, 503) },
    },
    handler: async (request, reply) => {
      tell(reply, await uploadStanding(targetOf(request, request.params)));
      return reply.code(204).send();
    },
  });

  app.patch(ADDRESS, {
    schema: {
      operationId: "continuePhotoUpload",
      summary: "Send the next piece of a photo",
      description:
        "The piece begins at Upload-Offset; at another place than the reply to HEAD says it is " +
        "refused with 409 and the right Upload-Offset. With the last piece the photo is checked " +
        "and becomes the job's. A piece of no bytes asks for that check again. Pieces are of any " +
        "size, at most 15 MB in all.",
      tags: TAGS,
      consumes: [PIECE_TYPE],
      params: PhotoParams,
      querystring: PhotoPlace,
      headers: PieceHeaders,
      body: Piece,
      response: { 204: noBody(), ...problems(401, 403, 404, 409, 413, 415, 422, 503) },
    },
    handler: async (request, reply) => {
      const { raw, headers } = request;
      const said = raw.headers["content-length"];
      const standing = await receivePiece(targetOf(request, request.params), {
        offset: headers["upload-offset"],
        lengthBytes: headers["upload-length"],
        body: request.body,
        bodyBytes: said === undefined ? undefined : Number(said),
        ...request.query,
        now: now(),
        // Only what still comes in is broken off; a photo being checked is let through.
        stop: () => void (raw.complete || raw.destroy()),
      });
      tell(reply, standing);
      if (standing.taken) return reply.code(204).send();
      const sentence = `The upload stands at ${standing.offset} bytes; go on from there.`;
      throw new Problem("conflict", sentence);
    },
  });
};

function tell(reply: FastifyReply, { offset, complete }: UploadStanding): void {
  reply
    .header("upload-offset", String(offset))
    .header("upload-complete", complete ? "?1" : "?0")
    .header("cache-control", "no-store");
}
