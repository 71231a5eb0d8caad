import { createHash, randomBytes, timingSafeEqual } from "node:crypto";
import type { Config } from "../../config.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { isLanguage, type Language } from "../../language/languages.ts";
import type { Role } from "../../web/roles.ts";
import { readFirm } from "../firms/store.ts";
import { mailHost } from "../mail/post.ts";
import { queueMail } from "../mail/store.ts";
import { mailTemplate } from "../mail/template.ts";
import { addPersonUnlessTaken } from "../people/add-person.ts";
import { findPerson } from "../people/store.ts";
import { addInvitation, findInvitation, revokeInvitations } from "./store.ts";

const LIFE_MS = 7 * 24 * 3_600_000;
const render = mailTemplate("invitation");
const hashOf = (secret: string): string => createHash("sha256").update(secret).digest("hex");

interface Ground {
  config: Config;
  now: Date;
  /** Who invites. */
  personId: string;
}

interface Invited {
  name: string;
  email: string;
  roles: Role[];
  /** Last day of an auditor. */
  auditUntil?: string | undefined;
}

export async function inviteNew(
  tx: FirmTransaction,
  { auditUntil, ...person }: Invited,
  ground: Ground,
): Promise<string> {
  const beginning = { now: ground.now, until: auditUntil };
  const row = await addPersonUnlessTaken(tx, { ...person, passwordHash: null }, beginning);
  if (!row) {
    throw new Problem("conflict", "Somebody signs in with this address already.", {
      errors: [{ pointer: "/body/email", detail: "is somebody's already" }],
    });
  }
  await invite(tx, row.id, ground);
  return row.id;
}

/** A fresh invitation by mail; earlier ones of the person open nothing any more. */
export async function invite(
  tx: FirmTransaction,
  personId: string,
  { config, now, personId: createdById }: Ground,
): Promise<void> {
  const person = await findPerson(tx, personId);
  if (!person) throw notFound("person");
  if (person.passwordHash !== null) {
    throw new Problem("conflict", `${person.name} has signed in before; set a password instead.`);
  }
  await revokeInvitations(tx, personId, now);
  const secret = randomBytes(32).toString("base64url");
  const expiresAt = new Date(now.getTime() + LIFE_MS);
  const fields = { personId, secretHash: hashOf(secret), createdById, expiresAt };
  const id = await addInvitation(tx, fields);
  const firm = await readFirm(tx);
  const language: Language = [person.language, firm.language].find(isLanguage) ?? "en";
  const base = config.PUBLIC_URL ?? `http://localhost:${config.PORT}`;
  const link = new URL(`/invitation/${tx.firmId}/${id}/${secret}`, base).href;
  const mail = render({ language, firm: firm.name, name: person.name, link, days: 7 });
  const { subject, text: textBody, html: htmlBody } = mail;
  const kind = "invitation" as const;
  const host = mailHost(config);
  await queueMail(tx, { recipient: person.email, subject, textBody, htmlBody, host, kind }, now);
}

export interface InvitationLink {
  firmId: string;
  id: string;
  secret: string;
}

/** Whom the link invites, while it opens. */
export async function invited(tx: FirmTransaction, { id, secret }: InvitationLink, now: Date) {
  const row = await findInvitation(tx, id);
  const opens =
    row &&
    row.usedAt === null &&
    row.revokedAt === null &&
    row.expiresAt > now &&
    row.person.active;
  if (!opens) return undefined;
  const same = timingSafeEqual(Buffer.from(row.secretHash), Buffer.from(hashOf(secret)));
  return same ? row.person : undefined;
}
