import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { isMessageKey, say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { typedText } from "../../web/fields.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { type FoundKind, type FoundThing, TEXT_MOST } from "./schemas.ts";
import { seek } from "./seek.ts";

const PageQuery = z.object({ q: typedText(TEXT_MOST).default("") });
const PATHS: Readonly<Record<FoundKind, string>> = {
  customer: "/customers",
  site: "/sites",
  unit: "/units",
  job: "/jobs",
  instrument: "/instruments",
  person: "/people",
};

export const searchPages: Feature = async (app, { db, now }) => {
  app.get("/search", {
    schema: { operationId: "searchPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const q = request.query.q.trim();
      const { firmId, roles } = signedIn(request);
      const found =
        q === "" ? [] : await inFirm(db, firmId, (tx) => seek(tx, q, { roles, now: now() }));
      const [only] = found;
      // A whole serial number or reference means that one thing.
      if (only?.exact && found.length === 1) return reply.redirect(hrefOf(only), 303);
      return sendPage(request, reply, "search", {
        title: say(request.language, "search.title"),
        ...{ q, asked: q !== "", styles: ["registry"] },
        found: found.map((thing) => shownThing(thing, request.language)),
      });
    },
  });
};

const hrefOf = ({ kind, id, foundAs }: FoundThing): string =>
  `${PATHS[kind]}/${id}${foundAs ? `?${new URLSearchParams({ was: foundAs })}` : ""}`;

function shownThing(thing: FoundThing, language: ShownLanguage) {
  const key = `search.state.${thing.state}`;
  return {
    ...thing,
    href: hrefOf(thing),
    kindWord: say(language, `search.kind.${thing.kind}`),
    stateWord: isMessageKey(key) ? say(language, key) : undefined,
  };
}
