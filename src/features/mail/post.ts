// The one place that knows how a mail leaves: by SMTP, or as a file where no mail server is set.
import { randomUUID } from "node:crypto";
import { existsSync } from "node:fs";
import { mkdir, rename, writeFile } from "node:fs/promises";
import nodemailer from "nodemailer";
import type { Config } from "../../config.ts";
import { isAddressUseless } from "../../domain/mail/smtp-reply.ts";
import { leadsOutside } from "../../public-network.ts";
import type { WaitingMail } from "./claim-store.ts";
import { composeRaw, message } from "./compose.ts";
import { mailFile, mailFolder } from "./mail-files.ts";

/** Refused "for-good" and "for-now" is this mail; with "no-server" no other would fare better. */
export type Delivery =
  | { kind: "sent" }
  | { kind: "for-now" | "no-server"; reason: string }
  | { kind: "for-good"; reason: string; addressUseless: boolean };

export type Post =
  | { kind: "smtp"; send(mail: WaitingMail): Promise<Delivery>; close(): void }
  | { kind: "files"; file(mail: WaitingMail): Promise<void>; close(): void };

const CONNECT_MS = 15_000;
const SILENCE_MS = 60_000;
const REASON_MOST = 500;

export function openPost(config: Config): Post {
  return config.SMTP_URL ? smtpPost(config, config.SMTP_URL) : filePost(config);
}

/** Host that a mail's Message-ID names: the sender's domain. */
export function mailHost(config: Config): string {
  return /@([A-Za-z0-9.-]+)/.exec(config.MAIL_FROM)?.[1] ?? "localhost";
}

function smtpPost(config: Config, url: string): Post {
  const transport = nodemailer.createTransport(wayTo(url));
  return {
    kind: "smtp",
    send: async (mail) => {
      try {
        await transport.sendMail(message(config, mail));
        return { kind: "sent" };
      } catch (error) {
        return refusal(error as SmtpError);
      }
    },
    close: () => transport.close(),
  };
}

/** What the address itself says, such as `?requireTLS=false`, goes before. */
export const wayTo = (url: string) => ({
  url,
  // Whoever sits on the way could else have the mail server seem to know no TLS.
  requireTLS: leadsOutside(new URL(url)),
  connectionTimeout: CONNECT_MS,
  dnsTimeout: CONNECT_MS,
  greetingTimeout: CONNECT_MS,
  socketTimeout: SILENCE_MS,
});

interface SmtpError extends Error {
  code?: string;
  responseCode?: number;
  /** The SMTP command that was refused. */
  command?: string;
  /** What the server said, its code first. */
  response?: string;
}

// RFC 5321 4.2.1: 4yz may succeed when tried again, 5yz will not. Only an answer to the recipient
// or the content is about this mail; one to sign-in or sender is about the settings, which may be
// mended.
function refusal(error: SmtpError): Delivery {
  const reason = (error.message || String(error)).slice(0, REASON_MOST);
  const ofMail = error.code === "EENVELOPE" || error.code === "EMESSAGE";
  if (!ofMail || error.command === "MAIL FROM") return { kind: "no-server", reason };
  const lasting = error.responseCode === undefined || error.responseCode >= 500;
  if (!lasting) return { kind: "for-now", reason };
  const addressUseless = isAddressUseless(error.responseCode, error.response ?? reason);
  return { kind: "for-good", reason, addressUseless };
}

function filePost(config: Config): Post {
  const folder = mailFolder(config.dataFolder);
  return {
    kind: "files",
    file: async (mail) => {
      const path = mailFile(config.dataFolder, mail.id);
      if (existsSync(path)) return;
      const composed = await composeRaw(config, mail);
      await mkdir(folder, { recursive: true, mode: 0o700 });
      // Under its name only when whole, so that nobody opens half a mail.
      const part = `${path}.${randomUUID()}.part`;
      await writeFile(part, composed, { mode: 0o600, flush: true });
      await rename(part, path);
    },
    close: () => undefined,
  };
}
