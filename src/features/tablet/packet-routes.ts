import { createHash } from "node:crypto";
import { z } from "zod";
import { pipelineQuery } from "../../db/query.ts";
import { inFirmPipelined } from "../../db/scope.ts";
import { canonicalize } from "../../domain/evidence/canonical-json.ts";
import { notFound } from "../../errors.ts";
import { matchesETag } from "../../web/etag-match.ts";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { dayVisits } from "./day-visits.ts";
import { packetBody, packetVersion } from "./packet.ts";
import { readPacketFacts, readPlanDocument } from "./packet-store.ts";
import { Packet, TabletDay } from "./schemas.ts";

const TAGS = ["Tablet"];
const UNCHANGED = z.undefined().describe("As it was when If-None-Match was told");

/** What a tablet takes along to where there is no signal. */
export const packetRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/tablet/day", {
    schema: {
      operationId: "readTabletDay",
      summary: "List the visits of your crews today and tomorrow",
      description: "Days are those of each site. packetVersion tells which packets to fetch anew.",
      tags: TAGS,
      response: { 200: TabletDay, 304: UNCHANGED, ...problems(401, 403) },
    },
    handler: async (request, reply) => {
      const session = signedIn(request);
      const at = now();
      const items = await inFirmPipelined(db, session.firmId, (pipeline) =>
        dayVisits(pipelineQuery(pipeline), session, at),
      );
      const etag = `"${createHash("sha256").update(canonicalize(items)).digest("hex")}"`;
      reply.header("etag", etag).header("cache-control", "private, no-cache");
      if (matchesETag(request, etag)) return reply.code(304).send();
      return { serverTime: at.toISOString(), items };
    },
  });

  app.get("/api/v1/tablet/packets/:jobId", {
    schema: {
      operationId: "readPacket",
      summary: "Take along all that a visit needs without a network",
      description: "The ETag is the packet's version; with If-None-Match, 304 when it still is.",
      tags: TAGS,
      params: z.object({ jobId: z.guid().describe("the job") }),
      response: { 200: Packet, 304: UNCHANGED, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { firmId } = signedIn(request);
      const at = now();
      return inFirmPipelined(db, firmId, async (pipeline) => {
        const query = pipelineQuery(pipeline);
        const facts = await readPacketFacts(query, firmId, request.params.jobId);
        if (!facts) throw notFound("job");
        const body = packetBody(facts, at);
        const version = packetVersion(body);
        reply.header("etag", `"${version}"`).header("cache-control", "private, no-cache");
        if (matchesETag(request, `"${version}"`)) return reply.code(304).send();
        const document = await readPlanDocument(query, firmId, body.plan.versionId);
        return {
          ...body,
          plan: { ...body.plan, document },
          version,
          generatedAt: at.toISOString(),
        };
      });
    },
  });
};
