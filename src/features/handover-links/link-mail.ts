import type { FirmTransaction } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import type { Language } from "../../language/languages.ts";
import { longDay } from "../../language/moments.ts";
import type { readJob } from "../close-out/store.ts";
import { readLetterhead } from "../firms/branding-store.ts";
import { readLetterMark } from "../firms/letter-mark.ts";
import { readMailSettings } from "../mail/settings-store.ts";
import type { NewMail } from "../mail/store.ts";
import { mailTemplate } from "../mail/template.ts";

const render = mailTemplate("handover");

interface Letter {
  host: string;
  firm: { name: string };
  job: NonNullable<Awaited<ReturnType<typeof readJob>>>;
  language: Language;
  url: string;
  expiresAt: Date;
}

/** The mail that takes a link to the customer. */
export async function linkMail(
  tx: FirmTransaction,
  { host, firm, job, language, url, expiresAt }: Letter,
): Promise<NewMail> {
  const settings = await readMailSettings(tx);
  const { customer, timeZone } = job.site;
  const mark = await readLetterMark(tx);
  const mail = render({
    ...{ language, url, firm: firm.name, customer: customer.name, reference: job.reference },
    ...{ letterhead: await readLetterhead(tx), mark },
    until: longDay(language, localDay(expiresAt.toISOString(), timeZone)),
  });
  return {
    recipient: customer.email ?? "",
    ...{ subject: mail.subject, textBody: mail.text, htmlBody: mail.html },
    ...{ host, kind: "document", customerId: customer.id, quiet: true },
    ...{ senderName: settings.senderName ?? firm.name, replyTo: settings.replyTo },
    attachments: mark ? [mark.file] : [],
  };
}
