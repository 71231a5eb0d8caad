import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { listView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { afterId } from "../../web/paging.ts";
import { signedIn } from "../../web/session.ts";
import { judgeUnits } from "./judge.ts";
import { warrantyLine } from "./warranty-view.ts";

const A_PAGE = 40;
const PageQuery = z.object({ cursor: z.string().max(200).optional() });

export const warrantyPages: Feature = async (app, { db, now }) => {
  app.get("/warranty", {
    schema: { operationId: "warrantyPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { language } = request;
      const page = { after: afterId(request.query.cursor), most: A_PAGE + 1 };
      const rows = await inFirm(db, signedIn(request).firmId, (tx) => judgeUnits(tx, page, now()));
      const shown = rows.slice(0, A_PAGE);
      const last = rows.length > A_PAGE ? shown.at(-1) : undefined;
      return sendPage(request, reply, "warranty", {
        title: say(language, "warranty.title"),
        found: shown.map((row) => warrantyLine(row, language)),
        list: listView({
          ...{ path: "/warranty", filters: {}, cursor: request.query.cursor },
          next: last ? Buffer.from(last.unitId).toString("base64url") : null,
        }),
      });
    },
  });
};
