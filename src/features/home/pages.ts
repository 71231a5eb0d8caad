import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { longDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { READERS, type Viewer } from "./entries.ts";
import { type Section, type SectionName, sectionsOf, TITLES } from "./sections.ts";

const SEE_ALL: readonly string[] = ["owner", "office", "manager", "auditor"];

const MORE: Readonly<Partial<Record<SectionName, string>>> = {
  visits: "/today",
  blocked: "/jobs",
  overdue: "/firmware?overdue=true",
  mails: "/outbox",
  instruments: "/instruments?sort=dueOn",
  concessions: "/concessions?sort=expires",
  records: "/jobs?state=closed",
};

export const homePages: Feature = async (app, { db, now }) => {
  app.get("/", {
    schema: { operationId: "firstPage", hide: true },
    handler: async (request, reply) => {
      const { firmId, personId, roles, name } = signedIn(request);
      const { language } = request;
      const page = await inFirm(db, firmId, async (tx) => {
        const { timeZone } = await readFirm(tx);
        const today = localDay(now().toISOString(), timeZone);
        const seesAll = roles.some((role) => SEE_ALL.includes(role));
        const viewer = { personId, seesAll, now: now(), today, timeZone, language };
        return { today, sections: await readSections(tx, sectionsOf(roles), viewer) };
      });
      const pressing = page.sections.filter(({ entries }) => entries.length > 0);
      return sendPage(request, reply, "home", {
        title: say(language, "home.title"),
        day: longDay(language, page.today),
        greeting: say(language, "home.greeting", { name }),
        sections: pressing,
        quiet: page.sections
          .filter(({ entries }) => entries.length === 0)
          .map(({ title }) => title.toLocaleLowerCase(language)),
        leads: roles.some((role) => ["owner", "office", "manager"].includes(role)),
        installs: roles.includes("installer"),
        audits: roles.includes("auditor"),
        styles: ["registry"],
      });
    },
  });
};

async function readSections(
  tx: FirmTransaction,
  names: readonly SectionName[],
  viewer: Viewer,
): Promise<Section[]> {
  const sections: Section[] = [];
  for (const name of names) {
    const entries = await READERS[name](tx, viewer);
    const href = MORE[name];
    const more = href && { href, text: say(viewer.language, "home.all") };
    const title = say(viewer.language, TITLES[name]);
    sections.push({ name, title, entries, ...(more ? { more } : {}) });
  }
  return sections;
}
