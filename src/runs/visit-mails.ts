// Customers are told of their visits once the hold-back after the last change is over, and reminded
// the working day before. Each telling is one transaction, taken under a lock, so however many
// instances run, and whenever one dies, a customer is told once. In quiet hours nothing is written,
// and what is written afterwards says how the visit stands then.
import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import { inFirm } from "../db/scope.ts";
import { readLetterhead } from "../features/firms/branding-store.ts";
import { readFirm } from "../features/firms/store.ts";
import { quietEnd } from "../features/mail/quiet.ts";
import { readMailSettings } from "../features/mail/settings-store.ts";
import { remindCustomers } from "../features/visit-mails/remind-customers.ts";
import { tellNext } from "../features/visit-mails/tell-customer.ts";
import { dropBegun, isAnyDue } from "../features/visit-mails/telling-store.ts";
import { eachFirm, type OnFailure, stopAtOnce } from "./each-firm.ts";

const TELLINGS_A_RUN = 200;

export interface VisitMailFigures {
  written: number;
  reminded: number;
}

export async function writeVisitMails(
  db: Database,
  config: Config,
  now: Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<VisitMailFigures> {
  const figures: VisitMailFigures = { written: 0, reminded: 0 };
  await eachFirm(db, onFailure, async ({ id }) => {
    const writer = await inFirm(db, id, async (tx) => {
      const [firm, settings] = [await readFirm(tx), await readMailSettings(tx)];
      await dropBegun(tx, now);
      if (quietEnd(settings, firm.timeZone, now)) return undefined;
      const found = { firm, letterhead: await readLetterhead(tx), settings, config, now };
      figures.reminded += await remindCustomers(tx, found);
      return (await isAnyDue(tx, now)) ? found : undefined;
    });
    for (let count = 0; writer && count < TELLINGS_A_RUN; count += 1) {
      const outcome = await inFirm(db, id, (tx) => tellNext(tx, writer));
      if (outcome === undefined) break;
      if (outcome === "written") figures.written += 1;
    }
  });
  return figures;
}
