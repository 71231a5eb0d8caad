// What a bag is of, in its reader's words. The bag itself, as every record in it, says it in
// English, and so the title is kept.
import type { ShownLanguage } from "../../language/languages.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { ExportScope } from "./schemas.ts";
import type { ExportRow } from "./store.ts";

/** As `withinWords` writes it after the title. */
const WITHIN = /^(.*), within the scope of an audit \((.*)\)$/s;

export function titleIn(language: ShownLanguage, row: Pick<ExportRow, "title" | "scope">): string {
  const [, title = row.title, within] = WITHIN.exec(row.title) ?? [];
  const what = whatIn(language, ExportScope.parse(row.scope), title);
  return within === undefined ? what : say(language, "evidence.within", { what, scope: within });
}

function whatIn(language: ShownLanguage, scope: ExportScope, title: string): string {
  switch (scope.kind) {
    case "fleet":
      return say(language, "evidence.scope.fleet");
    case "period":
      return say(language, "evidence.of.period", {
        from: plainDay(language, scope.from),
        to: plainDay(language, scope.to),
      });
    default:
      return say(language, `evidence.of.${scope.kind}`, { name: title.replace(/^\w+ /, "") });
  }
}
