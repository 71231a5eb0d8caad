import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { keepsRecords } from "../../web/office.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { asked } from "../../web/sorted-list.ts";
import { changesView } from "../changes/view.ts";
import { findCustomer } from "../customers/store.ts";
import { mergesView } from "../merges/view.ts";
import { currentSurvey } from "../surveys/store.ts";
import { dueOf, holdingsOf, mapOf, planOf } from "./site-view.ts";
import { findSite } from "./store.ts";
import { timeLineView } from "./time-line.ts";
import { TIME_LINE_PARTS } from "./time-line-store.ts";

const Query = z.object({
  saved: z.guid().optional(),
  was: z.string().max(40).optional(),
  part: asked(z.enum(TIME_LINE_PARTS)),
  cursor: z.string().max(200).optional(),
});

export const siteDetailPages: Feature = async (app, { db, now, config }) => {
  app.get("/sites/:id", {
    schema: { operationId: "sitePage", hide: true, params: IdParams, querystring: Query },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { saved, was, ...asks } = request.query;
      const { language } = request;
      const { firmId, roles } = signedIn(request);
      const mayUndo = keepsRecords(request);
      const due = await dueOf(db, firmId, id, now());
      const page = await inFirm(db, firmId, async (tx) => {
        const site = await findSite(tx, id);
        if (!site) throw notFound("site");
        const of = { subjectId: id, kind: "site", path: `/sites/${id}` } as const;
        return {
          site,
          customer: await findCustomer(tx, site.customerId),
          survey: await currentSurvey(tx, id),
          ...(await planOf(tx, site, language)),
          ...(await holdingsOf(tx, site, { due, now: now(), language })),
          ...(await timeLineView(tx, site, asks, language)),
          ...(await changesView(tx, { ...of, saved, mayUndo }, language)),
          ...(await mergesView(tx, { ...of, suggest: mayUndo }, language)),
        };
      });
      const { mergedIntoId, reference, addressLine } = page.site;
      if (mergedIntoId) {
        const query = new URLSearchParams({ was: reference });
        return reply.redirect(`/sites/${mergedIntoId}?${query}`, 303);
      }
      return sendPage(request, reply, "site", {
        ...page,
        title: `${reference} ${addressLine}`,
        ...{ mayEdit: mayUndo, was, styles: ["registry"] },
        hasBanks: page.units.some(({ bank }) => bank),
        seesCustomers: roles.some((role) => role !== "installer"),
        map: mapOf(page.site, config.MAP_TILE_URL),
        mapCredit: config.MAP_TILE_CREDIT,
      });
    },
  });
};
