import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { typedText } from "../../web/fields.ts";
import { readForm, refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { keepsRecords } from "../../web/office.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { showForm } from "./customer-form.ts";
import { CUSTOMER_COLUMNS, listForPage } from "./page-store.ts";
import { NewCustomer } from "./schemas.ts";
import { addCustomer } from "./store.ts";

const PageQuery = z.object({
  ...sortedQuery(CUSTOMER_COLUMNS),
  name: asked(typedText(120)),
  archived: asked(z.stringbool()),
});

export const customerPages: Feature = async (app, { db, now }) => {
  app.get("/customers", {
    schema: { operationId: "customersPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { query } = request;
      const filter = { name: query.name, archived: query.archived ?? false };
      const sorting = sortingOf(query, "name");
      const found = await inFirm(db, signedIn(request).firmId, (tx) =>
        listForPage(tx, { ...filter, sorting, most: A_PAGE + 1 }),
      );
      return sendPage(request, reply, "customers", {
        title: say(request.language, "registry.customers"),
        ...sortedPage(found, {
          ...{
            path: "/customers",
            columns: CUSTOMER_COLUMNS,
            usual: "name",
            query,
            exportPath: "/api/v1/exports/customers.csv",
          },
        }),
        ...{ filter, styles: ["registry"] },
        filtered: filter.name !== undefined || filter.archived,
        mayEdit: keepsRecords(request),
      });
    },
  });

  app.get("/customers/new", {
    schema: { operationId: "newCustomerPage", hide: true },
    handler: async (request, reply) => showForm(request, reply, { typed: {} }),
  });

  app.post("/customers", {
    schema: { operationId: "addCustomerForm", hide: true, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readForm(NewCustomer, typed);
      if (!read.ok) return showForm(request, reply.code(422), { typed, problems: read.problems });
      try {
        const row = await inFirmAs(db, signedIn(request), (tx) =>
          addCustomer(tx, read.value, now()),
        );
        return reply.redirect(`/customers/${row.id}`, 303);
      } catch (error) {
        return showForm(request, reply.code(422), { typed, problems: refusedFields(error) });
      }
    },
  });
};
