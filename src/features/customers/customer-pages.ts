import { z } from "zod";
import { type FirmTransaction, inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { isMessageKey, say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FormBody, readForm, refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { keepsRecords } from "../../web/office.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { orRefusal } from "../changes/or-refusal.ts";
import { changeThatMade } from "../changes/store.ts";
import { changesView } from "../changes/view.ts";
import { readFirm } from "../firms/store.ts";
import { mergesView } from "../merges/view.ts";
import { showForm } from "./customer-form.ts";
import { changeCustomer } from "./edit-customer.ts";
import { readBelongings } from "./page-store.ts";
import { CustomerEdit } from "./schemas.ts";
import { findCustomer } from "./store.ts";

const Query = z.object({ saved: z.guid().optional(), was: z.string().max(40).optional() });
const Edit = CustomerEdit.omit({ archived: true })
  .required({ name: true })
  .extend({ version: z.coerce.number().int() });
const Archive = z.object({ version: z.coerce.number().int(), archived: z.stringbool() });
const EMPTIED = ["email", "phone", "address", "note", "language"];

export const customerDetailPages: Feature = async (app, { db, now }) => {
  app.get("/customers/:id", {
    schema: { operationId: "customerPage", hide: true, params: IdParams, querystring: Query },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { saved, was } = request.query;
      const mayUndo = keepsRecords(request);
      const { language } = request;
      const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const customer = await findCustomer(tx, id);
        if (!customer) throw notFound("customer");
        const asks = { kind: "customer", subjectId: id, path: `/customers/${id}` } as const;
        return {
          customer,
          ...(await belongings(tx, id, language)),
          ...(await changesView(tx, { ...asks, saved, mayUndo }, language)),
          ...(await mergesView(tx, { ...asks, suggest: mayUndo }, language)),
        };
      });
      if (page.customer.mergedIntoId) {
        const query = new URLSearchParams({ was: page.customer.reference });
        return reply.redirect(`/customers/${page.customer.mergedIntoId}?${query}`, 303);
      }
      const { reference, name } = page.customer;
      return sendPage(request, reply, "customer", {
        ...page,
        title: `${reference} ${name}`,
        ...{ mayEdit: mayUndo, was, styles: ["registry"] },
        mayErase: signedIn(request).roles.includes("owner"),
      });
    },
  });

  app.get("/customers/:id/edit", {
    schema: { operationId: "editCustomerPage", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const row = await inFirm(db, signedIn(request).firmId, (tx) => findCustomer(tx, id));
      if (!row) throw notFound("customer");
      const { reference, name, version } = row;
      const optional = EMPTIED.map((field) => [field, row[field as "email"] ?? ""]);
      const typed = { name, version: String(version), ...Object.fromEntries(optional) };
      return showForm(request, reply, { id, reference, typed });
    },
  });

  app.post("/customers/:id", {
    schema: { operationId: "editCustomerForm", hide: true, params: IdParams, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const { reference = "", ...typed } = request.body;
      const { id } = request.params;
      const read = readForm(Edit, emptied(typed));
      const again = (problems: Readonly<Record<string, string>>) =>
        showForm(request, reply.code(422), { id, reference, typed, problems });
      if (!read.ok) return again(read.problems);
      const { version, ...change } = read.value;
      try {
        const saved = await inFirmAs(db, signedIn(request), async (tx) => {
          const row = await changeCustomer(tx, id, version, change, now());
          return changeThatMade(tx, id, row.version);
        });
        return reply.redirect(`/customers/${id}${saved ? `?saved=${saved}` : ""}`, 303);
      } catch (error) {
        return again(refusedFields(error));
      }
    },
  });

  app.post("/customers/:id/archive", {
    schema: { operationId: "archiveCustomerForm", hide: true, params: IdParams, body: Archive },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { version, archived } = request.body;
      return orRefusal(request, reply, `/customers/${id}`, async () => {
        const saved = await inFirmAs(db, signedIn(request), async (tx) => {
          const row = await changeCustomer(tx, id, version, { archived }, now());
          return changeThatMade(tx, id, row.version);
        });
        return `/customers/${id}${saved ? `?saved=${saved}` : ""}`;
      });
    },
  });
};

/** A field left empty takes away what stood there. */
const emptied = (typed: FormBody) => ({
  ...typed,
  ...Object.fromEntries(EMPTIED.map((field) => [field, typed[field] || null])),
});

async function belongings(tx: FirmTransaction, id: string, language: ShownLanguage) {
  const { timeZone } = await readFirm(tx);
  const { mails, jobs, ...rest } = await readBelongings(tx, id);
  const word = (key: string) => (isMessageKey(key) ? say(language, key) : key);
  return {
    ...rest,
    jobs: jobs.map((job) => ({ ...job, stateWord: word(`registry.state.${job.state}`) })),
    mails: mails.map((mail) => ({
      ...mail,
      stateWord: word(`registry.mail.${mail.state}`),
      when: dayAndTime(language, mail.sentAt ?? mail.createdAt, timeZone),
    })),
  };
}
