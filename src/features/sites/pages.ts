import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { typedText } from "../../web/fields.ts";
import { keepsRecords } from "../../web/office.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { findCustomer } from "../customers/store.ts";
import { listForPage, listRegions, SITE_COLUMNS } from "./page-store.ts";

const PageQuery = z.object({
  ...sortedQuery(SITE_COLUMNS),
  place: asked(typedText(120)),
  customerId: asked(z.guid()),
  region: asked(typedText(40)),
  archived: asked(z.stringbool()),
});

export const sitePages: Feature = async (app, { db }) => {
  app.get("/sites", {
    schema: { operationId: "sitesPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { query } = request;
      const { place, customerId, region, archived = false } = query;
      const sorting = sortingOf(query, "reference");
      const filter = { place, customerId, region, archived };
      const page = await inFirm(db, signedIn(request).firmId, async (tx) => ({
        found: await listForPage(tx, { ...filter, sorting, most: A_PAGE + 1 }),
        regions: await listRegions(tx),
        customer: customerId ? await findCustomer(tx, customerId) : undefined,
      }));
      return sendPage(request, reply, "sites", {
        title: say(request.language, "registry.sites"),
        ...sortedPage(page.found, {
          ...{
            path: "/sites",
            columns: SITE_COLUMNS,
            usual: "reference",
            query,
            exportPath: "/api/v1/exports/sites.csv",
          },
        }),
        ...{ filter, styles: ["registry"] },
        regions: page.regions.map((name) => ({ name, chosen: name === region })),
        customerName: page.customer?.name,
        filtered: [place, customerId, region].some(Boolean) || archived,
        mayEdit: keepsRecords(request),
      });
    },
  });
};
