import { Problem } from "../errors.ts";
import type { App } from "./feature.ts";

/**
 * JSON must be well-formed UTF-8: a broken byte is refused, not turned into a replacement
 * character.
 */
export function acceptJson(app: App): void {
  const parse = app.getDefaultJsonParser("error", "error");
  const decoder = new TextDecoder("utf-8", { fatal: true });
  app.removeContentTypeParser("application/json");
  app.addContentTypeParser("application/json", { parseAs: "buffer" }, (request, body, done) => {
    let text: string;
    try {
      text = decoder.decode(body as Buffer);
    } catch {
      done(new Problem("unreadable-body", "The body is not well-formed UTF-8."), undefined);
      return;
    }
    // A request without a body may still say it is JSON.
    if (text === "") done(null, undefined);
    else parse(request, text, done);
  });
}
