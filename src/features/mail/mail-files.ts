// Where a mail lies as a file while no mail server is set.
import { rm } from "node:fs/promises";
import { join } from "node:path";

export const mailFolder = (dataFolder: string): string => join(dataFolder, "mail");

export const mailFile = (dataFolder: string, mailId: string): string =>
  join(mailFolder(dataFolder), `${mailId}.eml`);

export async function dropMailFiles(dataFolder: string, mailIds: readonly string[]): Promise<void> {
  for (const id of mailIds) await rm(mailFile(dataFolder, id), { force: true });
}
