import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { LOCALES } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import { type Choice, type FieldProblems, type FormBody, withBlank } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { COUNTRY_CODES } from "./countries.ts";
import { NewSite, SiteEdit } from "./schemas.ts";

/** Degrees as a form posts them: text. */
const degrees = { latitude: z.coerce.number(), longitude: z.coerce.number() };

export const SiteForm = z.object({ ...NewSite.shape, ...degrees }).pipe(NewSite);
export const SiteEditForm = z.object({
  ...SiteEdit.omit({ archived: true }).required().shape,
  ...degrees,
  name: NewSite.shape.name,
  version: z.coerce.number().int(),
});

const ZONES = Intl.supportedValuesOf("timeZone").map((zone) => ({ value: zone, text: zone }));
const SUPPLIES = NewSite.shape.supply.options.map((value) => ({ value, text: value }));

export interface ShownSiteForm {
  id?: string;
  reference?: string;
  typed: FormBody;
  problems?: FieldProblems;
  customers: readonly Choice[];
}

export function showSiteForm(request: FastifyRequest, reply: FastifyReply, shown: ShownSiteForm) {
  const { language } = request;
  const names = new Intl.DisplayNames(LOCALES[language], { type: "region" });
  const countries = [...COUNTRY_CODES].map((value) => ({ value, text: names.of(value) ?? value }));
  return sendPage(request, reply, "site-form", {
    title: shown.reference ?? say(language, "registry.newSite"),
    ...shown,
    countries: withBlank(
      countries.sort((left, right) => left.text.localeCompare(right.text)),
      shown.typed.country,
    ),
    customers: withBlank(shown.customers, shown.typed.customerId),
    supplies: withBlank(SUPPLIES, shown.typed.supply),
    zones: ZONES,
    back: shown.id
      ? `/sites/${shown.id}`
      : shown.typed.customerId
        ? `/customers/${shown.typed.customerId}`
        : "/sites",
  });
}
