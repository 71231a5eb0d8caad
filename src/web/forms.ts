import { Problem } from "../errors.ts";
import type { App } from "./feature.ts";
import { withLineFeeds } from "./line-ends.ts";

const FORM_LIMIT_BYTES = 64 * 1024;
const FORM = "application/x-www-form-urlencoded";

/** Pages post ordinary forms, so that they work without any script. */
export function acceptForms(app: App): void {
  const limits = { parseAs: "string", bodyLimit: FORM_LIMIT_BYTES } as const;
  app.addContentTypeParser<string>(FORM, limits, (_request, body, done) => {
    // The URL Standard would put a replacement character where bytes are no UTF-8.
    if (isWellFormed(body)) done(null, formFields(body));
    else done(new Problem("unreadable-body", "The form is not well-formed UTF-8."), undefined);
  });
}

function isWellFormed(body: string): boolean {
  try {
    decodeURIComponent(body);
    return true;
  } catch {
    return false;
  }
}

/** By the URL Standard, 5.1; a name that stands more than once has all its texts. */
function formFields(body: string): Record<string, string | string[]> {
  const fields: Record<string, string | string[]> = Object.create(null);
  for (const [name, typed] of new URLSearchParams(body)) {
    const text = withLineFeeds(typed);
    const before = fields[name];
    if (before === undefined) fields[name] = text;
    else if (Array.isArray(before)) before.push(text);
    else fields[name] = [before, text];
  }
  return fields;
}
