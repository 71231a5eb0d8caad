// Pages of customers, sites, units and instruments, asked for and sent as a browser does.
import type { Role } from "../../src/web/roles.ts";
import type { TestService } from "./app.ts";
import { addModel, addSite, install, receive } from "./stock.ts";
import { rowsIn, SMALL_PLAN } from "./work-rows.ts";

/** A site with a unit and an open job, and the hands to ask for pages. */
export async function registryDesk(service: TestService) {
  const as = (role: Role = "office") => service.as(service.firm.people[role]);
  const page = (path: string, role?: Role) => as(role).get(path).set("accept", "text/html");
  const api = async (path: string) => (await as("owner").get(path)).body;
  const post = (path: string, fields: Record<string, string>, role?: Role) =>
    as(role).post(path).type("form").set("accept", "text/html").send(fields);
  const site = await addSite(service, { addressLine: "17 Lanternmaker Row" });
  const { customerId } = await api(`/api/v1/sites/${site.id}`);
  const model = await addModel(service, { attributes: { warrantyYears: 10 } });
  const unit = await receive(service, model.id);
  await install(service, unit, site);
  const { id: planVersionId } = await rowsIn(service).planVersion(SMALL_PLAN);
  const jobId = await rowsIn(service).job(site.id, planVersionId);
  return { as, page, post, site, customerId: customerId as string, unit, jobId, planVersionId };
}

/** The address behind the link to the next page. */
export const nextOf = (html: string): string | undefined =>
  /href="([^"]+)" rel="next"/.exec(html)?.[1]?.replaceAll("&amp;", "&").replaceAll("&#x3D;", "=");

/** Values of the page's hidden and visible fields, by name. */
export function fieldsOf(html: string): Record<string, string> {
  const found: Record<string, string> = {};
  for (const [tag] of html.matchAll(/<input[^>]*>/g)) {
    const [, name] = / name="([^"]+)"/.exec(tag) ?? [];
    const [, value = ""] = / value="([^"]*)"/.exec(tag) ?? [];
    if (name && !/type="(?:search|checkbox|radio)"/.test(tag)) found[name] = value;
  }
  for (const [, name = "", body = ""] of html.matchAll(
    /<select id="([^"]+)"[^>]*>([\s\S]*?)<\/select>/g,
  )) {
    found[name] = /<option value="([^"]*)" selected/.exec(body)?.[1] ?? "";
  }
  for (const [, name = "", text = ""] of html.matchAll(
    /<textarea id="([^"]+)"[^>]*>([\s\S]*?)<\/textarea>/g,
  )) {
    found[name] = text;
  }
  return found;
}
