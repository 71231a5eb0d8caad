// Signing in and out. The session itself is the browser's cookies; the tablet knows whose it is.
import type { Profile } from "../contract.ts";
import { phrase } from "../language/spoken.ts";
import { forgetProfile, isProfile, rememberProfile } from "../store/profile.ts";
import { type Caller, otherFirm, send } from "./caller.ts";
import { type Halt, haltOf, stranger } from "./halt.ts";
import { browserPorts, type Ports } from "./ports.ts";
import { isRecord } from "./reply.ts";

export type SignedIn = { ok: true; profile: Profile } | { ok: false; problem: string };

/** Also before any store is open: the profile tells whose store to open. */
export async function signIn(
  email: string,
  password: string,
  code = "",
  ports: Ports = browserPorts(),
): Promise<SignedIn> {
  const json = { email, password, ...(code === "" ? {} : { code }) };
  const reply = await send(ports, { method: "POST", path: "/api/v1/session", json });
  switch (reply.kind) {
    case "answered": {
      const person = isRecord(reply.body) ? reply.body.person : undefined;
      if (!isProfile(person)) return { ok: false, problem: phrase("tabletSync.stranger") };
      const profile = profileOf(person);
      if (globalThis.localStorage) rememberProfile(profile);
      return { ok: true, profile };
    }
    case "offline":
      return { ok: false, problem: phrase("tabletSignIn.noSignal") };
    case "stranger":
    case "busy":
      return { ok: false, problem: phrase(`tabletSync.${reply.kind}`) };
    case "too-large":
      return { ok: false, problem: phrase("tabletSignIn.tooLong") };
    default:
      return { ok: false, problem: reply.sentence };
  }
}

/** Ends the session here; without signal it is only forgotten, and ends by itself later. */
export async function signOut(ports: Ports = browserPorts()): Promise<void> {
  if (globalThis.localStorage) forgetProfile();
  await send(ports, { method: "DELETE", path: "/api/v1/session" });
}

const profileOf = ({ firmId, personId, name, roles, language }: Profile): Profile => ({
  ...{ firmId, personId, name, roles },
  ...(typeof language === "string" ? { language } : {}),
});

/** Whether the session is of the store's firm: another's would get facts that are not its own. */
export async function checkFirm(
  caller: Caller,
  firmId: string,
  onPerson: (person: Profile) => void,
): Promise<Halt | undefined> {
  const reply = await caller.call({ method: "GET", path: "/api/v1/session" });
  if (reply.kind !== "answered") return haltOf(reply);
  if (!isProfile(reply.body)) return stranger();
  if (reply.body.firmId === firmId) onPerson(profileOf(reply.body));
  return reply.body.firmId === firmId ? undefined : haltOf(otherFirm() as never);
}
