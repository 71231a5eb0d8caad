import { drawTightening } from "../../domain/mechanical/draw-tightening.ts";
import { TIGHTENING_CAUTION, tighteningOrder } from "../../domain/mechanical/tightening-order.ts";
import { DRAWING_QUERY, drawnOr, sendDrawing, wantsDrawing } from "../../web/drawing.ts";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { FastenerGroupBody, Tightening } from "./tightening-schemas.ts";

export const tighteningRoutes: Feature = async (app) => {
  app.post("/api/v1/tightening", {
    schema: {
      operationId: "planTightening",
      summary: "Order the passes in which a fastener group is tightened",
      description: TIGHTENING_CAUTION,
      tags: ["Calculations"],
      querystring: DRAWING_QUERY,
      body: FastenerGroupBody,
      response: {
        200: drawnOr(Tightening, "The order and the passes, or their drawing"),
        ...problems(401, 403, 422),
      },
    },
    handler: async (request, reply) =>
      wantsDrawing(request, request.query)
        ? sendDrawing(reply, drawTightening(request.body))
        : tighteningOrder(request.body),
  });
};
