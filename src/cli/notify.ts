import { parseArgs } from "node:util";
import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import { openPost } from "../features/mail/post.ts";
import type { OnFailure } from "../runs/each-firm.ts";
import { sendFirmwareNotices } from "../runs/firmware-notice.ts";
import { sendWaitingMail } from "../runs/send-mail.ts";
import { withDatabase } from "./database.ts";

/** Does today's firmware notice of every firm now; with --dry-run it prints what would go out. */
export async function notify(args: string[]): Promise<void> {
  const { values } = parseArgs({
    args,
    options: { "dry-run": { type: "boolean", default: false } },
  });
  const failures: string[] = [];
  const onFailure: OnFailure = (firm, error) =>
    failures.push(`${firm.name}: ${error instanceof Error ? error.message : error}`);
  await withDatabase(async (db, config) => {
    await giveNotices(db, config, values["dry-run"], onFailure);
    if (!values["dry-run"]) await sendMails(db, config, onFailure);
  });
  if (failures.length > 0) throw new Error(`Not done for\n${failures.join("\n")}`);
}

async function giveNotices(
  db: Database,
  config: Config,
  dryRun: boolean,
  onFailure: OnFailure,
): Promise<void> {
  const options = { now: new Date(), waitForHour: false, dryRun, onFailure };
  const outcomes = await sendFirmwareNotices(db, config, options);
  if (outcomes.length === 0) console.log("No firm has a notice left to give today.");
  for (const { firm, day, sites, notices } of outcomes) {
    console.log(`${firm}, ${day}: ${sites} sites due, ${notices.length} notices`);
    for (const { recipient, subject, text } of dryRun ? notices : []) {
      console.log(`\nTo: ${recipient}\nSubject: ${subject}\n\n${text}`);
    }
  }
}

async function sendMails(db: Database, config: Config, onFailure: OnFailure): Promise<void> {
  const post = openPost(config);
  const figures = await sendWaitingMail(db, post, () => new Date(), onFailure);
  post.close();
  const counts = Object.entries(figures).map(([what, count]) => `${count} ${what}`);
  console.log(`Mail: ${counts.join(", ")}`);
}
