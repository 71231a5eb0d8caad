// How to sign in to the demo. The password is this installation's own, made at random and kept for
// its owner's eyes, because a password in the code would be everybody's.
import { randomBytes } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { ROLES } from "../web/roles.ts";
import { PEOPLE } from "./tables/people.ts";

const FILE = "demo-sign-in.txt";

const finishedFile = (dataFolder: string): string => join(dataFolder, FILE);
const unfinishedFile = (dataFolder: string): string => join(dataFolder, `${FILE}.unfinished`);

/** Makes the password and keeps it before anything is loaded, so that it cannot be lost. */
export function beginSignInFile(dataFolder: string): string {
  const password = randomBytes(12).toString("base64url");
  mkdirSync(dataFolder, { recursive: true });
  const text = [`Password of everyone in the demo: ${password}`, "", ...addressLines(), ""];
  writeFileSync(unfinishedFile(dataFolder), text.join("\n"), { mode: 0o600, flush: true });
  return password;
}

export function finishSignInFile(dataFolder: string): void {
  renameSync(unfinishedFile(dataFolder), finishedFile(dataFolder));
}

/** What a start says about a demo that was loaded before; nothing where none was. */
export function keptSignInLines(dataFolder: string): string[] {
  if (existsSync(finishedFile(dataFolder))) {
    return [`Demo: the password stands in ${finishedFile(dataFolder)}`, ...addressLines()];
  }
  if (!existsSync(unfinishedFile(dataFolder))) return [];
  return [
    "Demo: loading it was interrupted, so parts of it are missing. For a whole one, stop, remove",
    `${dataFolder} and start again. The password stands in ${unfinishedFile(dataFolder)}`,
    ...addressLines(),
  ];
}

/** The lines for the first start, with the password. */
export const freshSignInLines = (dataFolder: string): string[] => [
  `Demo: sign in as any of these. This is kept in ${finishedFile(dataFolder)}`,
  ...readFileSync(finishedFile(dataFolder), "utf8").trimEnd().split("\n"),
];

/** Each role with those who hold it. */
function addressLines(): string[] {
  return ROLES.flatMap((role) =>
    PEOPLE.filter(({ roles }) => roles.includes(role)).map(
      ({ email, name }) => `  ${role.padEnd(10)} ${email.padEnd(30)} ${name}`,
    ),
  );
}

/** The demo owner's sign-in, for a program on this machine; undefined where no demo was loaded. */
export function readDemoSignIn(
  dataFolder: string,
): { ownerEmail: string; password: string } | undefined {
  if (!existsSync(finishedFile(dataFolder))) return undefined;
  const password = /^Password of everyone in the demo: (\S+)$/m.exec(
    readFileSync(finishedFile(dataFolder), "utf8"),
  )?.[1];
  const ownerEmail = PEOPLE.find(({ roles }) => roles.includes("owner"))?.email;
  return password && ownerEmail ? { ownerEmail, password } : undefined;
}
