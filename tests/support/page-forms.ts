// Pages and their forms as they come without any script.
import type { Client } from "./app.ts";
import type { Work } from "./work-rows.ts";

type Role = "owner" | "office" | "installer" | "manager" | "auditor";

/** @param work asked for late, since it is started in a hook */
export function pageForms(work: () => Work) {
  const as = (role: Role): Client => {
    const { service } = work();
    return service.as(service.firm.people[role]);
  };
  return {
    as,
    post: async (path: string, fields: object, role: Role = "office") =>
      as(role).post(path).type("form").send(fields),
    page: async (path: string, role: Role = "office"): Promise<string> =>
      (await as(role).get(path).set("accept", "text/html")).text,
  };
}

/** What is read, without its markup. */
export const words = (html: string): string =>
  html.replaceAll(/<[^>]+>/g, " ").replaceAll(/\s+/g, " ");

/** The hidden fields of the first form after the mark. */
export function hiddenFields(html: string, mark = ""): Record<string, string> {
  const [form = ""] = html.slice(html.indexOf(mark)).split("</form>");
  const fields = [...form.matchAll(/type="hidden" name="(\w+)" value="([^"]*)"/g)];
  return Object.fromEntries(fields.map(([, name, value]) => [name, value]));
}
