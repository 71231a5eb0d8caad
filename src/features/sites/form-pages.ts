import { z } from "zod";
import { type FirmTransaction, inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { readForm, refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { signedIn } from "../../web/session.ts";
import { orRefusal } from "../changes/or-refusal.ts";
import { changeThatMade } from "../changes/store.ts";
import { listForPage } from "../customers/page-store.ts";
import { findCustomer } from "../customers/store.ts";
import { readFirm } from "../firms/store.ts";
import { changeSite, takeOnSite } from "./edit-site.ts";
import { newestPlace } from "./page-store.ts";
import { SiteEditForm, SiteForm, showSiteForm } from "./site-form.ts";
import { findSite } from "./store.ts";

const NewQuery = z.object({ customerId: z.guid().optional() });
const Archive = z.object({ version: z.coerce.number().int(), archived: z.stringbool() });
const CUSTOMERS_MOST = 1000;

export const siteFormPages: Feature = async (app, { db, now }) => {
  app.get("/sites/new", {
    schema: { operationId: "newSitePage", hide: true, querystring: NewQuery },
    handler: async (request, reply) => {
      const { customerId = "" } = request.query;
      const { firmId } = signedIn(request);
      const { customers, like } = await inFirm(db, firmId, async (tx) => ({
        customers: await customerChoices(tx, customerId),
        like: (await newestPlace(tx)) ?? { timeZone: (await readFirm(tx)).timeZone },
      }));
      return showSiteForm(request, reply, { typed: { customerId, ...like }, customers });
    },
  });

  app.post("/sites", {
    schema: { operationId: "addSiteForm", hide: true, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const typed = request.body;
      const actor = signedIn(request);
      const again = async (problems: Readonly<Record<string, string>>) => {
        const customers = await inFirm(db, actor.firmId, (tx) =>
          customerChoices(tx, typed.customerId),
        );
        return showSiteForm(request, reply.code(422), { typed, problems, customers });
      };
      const read = readForm(SiteForm, typed);
      if (!read.ok) return again(read.problems);
      try {
        const row = await inFirmAs(db, actor, (tx) => takeOnSite(tx, read.value, now()));
        return reply.redirect(`/sites/${row.id}`, 303);
      } catch (error) {
        return again(refusedFields(error));
      }
    },
  });

  app.get("/sites/:id/edit", {
    schema: { operationId: "editSitePage", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const site = await findSite(tx, id);
        if (!site) throw notFound("site");
        return { site, customers: await customerChoices(tx, site.customerId) };
      });
      const { reference } = page.site;
      const typed = Object.fromEntries(
        [...FIELDS, "version" as const].map((field) => [field, String(page.site[field] ?? "")]),
      );
      return showSiteForm(request, reply, { id, reference, typed, customers: page.customers });
    },
  });

  app.post("/sites/:id", {
    schema: { operationId: "editSiteForm", hide: true, params: IdParams, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const { reference = "", ...typed } = request.body;
      const { id } = request.params;
      const actor = signedIn(request);
      const again = async (problems: Readonly<Record<string, string>>) => {
        const customers = await inFirm(db, actor.firmId, (tx) =>
          customerChoices(tx, typed.customerId),
        );
        return showSiteForm(request, reply.code(422), {
          ...{ id, reference, typed, problems, customers },
        });
      };
      const read = readForm(SiteEditForm, { ...typed, name: typed.name || null });
      if (!read.ok) return again(read.problems);
      const { version, ...change } = read.value;
      try {
        const saved = await inFirmAs(db, actor, async (tx) => {
          const row = await changeSite(tx, id, version, change, now());
          return changeThatMade(tx, id, row.version);
        });
        return reply.redirect(`/sites/${id}${saved ? `?saved=${saved}` : ""}`, 303);
      } catch (error) {
        return again(refusedFields(error));
      }
    },
  });

  app.post("/sites/:id/archive", {
    schema: { operationId: "archiveSiteForm", hide: true, params: IdParams, body: Archive },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { version, archived } = request.body;
      return orRefusal(request, reply, `/sites/${id}`, async () => {
        const saved = await inFirmAs(db, signedIn(request), async (tx) => {
          const row = await changeSite(tx, id, version, { archived }, now());
          return changeThatMade(tx, id, row.version);
        });
        return `/sites/${id}${saved ? `?saved=${saved}` : ""}`;
      });
    },
  });
};

const FIELDS = [
  ...(["customerId", "name", "addressLine", "locality", "postcode", "country"] as const),
  ...(["latitude", "longitude", "timeZone", "supply", "region"] as const),
];

/** The first customers by name, and the one that is chosen already. */
async function customerChoices(tx: FirmTransaction, chosen: string | undefined) {
  const sorting = { column: "name", descending: false };
  const rows = await listForPage(tx, { archived: false, sorting, most: CUSTOMERS_MOST });
  const isListed = !chosen || rows.some(({ id }) => id === chosen);
  const own = isListed ? undefined : await findCustomer(tx, chosen);
  return [...(own ? [own] : []), ...rows].map(({ id, name, reference }) => ({
    value: id,
    text: `${name} (${reference})`,
  }));
}
