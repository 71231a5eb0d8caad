// A mail server that holds a real SMTP conversation (RFC 5321), and the outbox sent to it.
import type { AddressInfo } from "node:net";
import { type ParsedMail, simpleParser } from "mailparser";
import { SMTPServer } from "smtp-server";
import { readConfig } from "../../src/config.ts";
import type { Database } from "../../src/db/client.ts";
import { openPost } from "../../src/features/mail/post.ts";
import { type MailFigures, sendWaitingMail } from "../../src/runs/send-mail.ts";

export interface MailServer {
  url: string;
  received: ParsedMail[];
  /** The address of each RCPT TO that was taken, as it was sent. */
  recipients: string[];
  /** Reply codes that the next mails are refused with: after their content, or at the recipient. */
  refusals: { at: "data" | "recipient"; code: number }[];
  /** When set, the server takes the content and never answers. */
  silent: boolean;
  stop(): Promise<void>;
}

export async function startMailServer(): Promise<MailServer> {
  const state: Pick<MailServer, "received" | "recipients" | "refusals" | "silent"> = {
    received: [],
    recipients: [],
    refusals: [],
    silent: false,
  };
  const refusalAt = (place: string) => {
    if (state.refusals[0]?.at !== place) return undefined;
    const { code } = state.refusals.shift()!;
    return Object.assign(new Error("refused for the test"), { responseCode: code });
  };
  const server = new SMTPServer({
    disabledCommands: ["AUTH", "STARTTLS"],
    logger: false,
    closeTimeout: 100,
    onRcptTo: ({ address }, _session, done) => {
      const refused = refusalAt("recipient");
      if (!refused) state.recipients.push(address);
      done(refused);
    },
    onData: (stream, _session, done) => {
      simpleParser(stream).then((mail) => {
        const refused = refusalAt("data");
        if (!refused) state.received.push(mail);
        if (!state.silent) done(refused);
      }, done);
    },
  });
  // A sender that is killed in mid-sentence is part of the play.
  server.on("error", () => undefined);
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const stop = () => new Promise<void>((resolve) => server.close(() => resolve()));
  const url = `smtp://127.0.0.1:${(server.server.address() as AddressInfo).port}`;
  return Object.assign(state, { url, stop });
}

export const mailConfig = (environment: Record<string, string>, dataFolder = ".data/tests") =>
  readConfig({ PUBLIC_URL: "https://holdpoint.example", ...environment }, dataFolder);

/** One pass over the outbox, as at `now`. */
export async function sendAt(
  db: Database,
  environment: Record<string, string>,
  now: Date,
  dataFolder?: string,
): Promise<MailFigures> {
  const post = openPost(mailConfig(environment, dataFolder));
  try {
    return await sendWaitingMail(db, post, () => now);
  } finally {
    post.close();
  }
}
