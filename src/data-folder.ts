import { createHash } from "node:crypto";
import { existsSync, mkdirSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { canReach, serverAccount } from "./db/embedded/account.ts";

/**
 * `.data` in the project; but under root the database runs as another account, which cannot enter a
 * clone in root's own home. Then the default moves to a place of its own under /var/lib.
 */
export function defaultDataFolder(projectFolder: string): string {
  const inProject = join(projectFolder, ".data");
  if (canReach(nearestExisting(inProject), serverAccount())) return inProject;
  const mark = createHash("sha256").update(resolve(projectFolder)).digest("hex").slice(0, 12);
  const elsewhere = join("/var/lib/holdpoint", mark);
  mkdirSync(elsewhere, { recursive: true, mode: 0o755 });
  return elsewhere;
}

function nearestExisting(path: string): string {
  return existsSync(path) ? path : nearestExisting(dirname(path));
}
