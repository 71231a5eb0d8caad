// Whether the service can do its work, and if not, every reason at once. Being alive is another
// question: a process that waits for its database must not be killed for it.
import { randomUUID } from "node:crypto";
import { rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { Database } from "../../db/client.ts";
import type { SchemaState } from "../../db/schema-state.ts";
import { askDatabase, readSchema } from "./store.ts";

export const CHECKS = ["stopping", "database", "schema", "queue", "data-folder"] as const;

export interface NotReady {
  check: (typeof CHECKS)[number];
  detail: string;
}

export interface Ground {
  isDraining(): boolean;
  db: Database;
  dataFolder: string;
  /** Undefined where the scheduled work is another process's. */
  queue?: { isRunning(): boolean } | undefined;
}

/** Enough that a full disk does not pass for a small file that fits into what is left. */
const TRIAL = Buffer.alloc(4096);
const NAMED_MOST = 3;

export interface Readiness {
  /** Every reason why it is not ready; none if it is. */
  reasons: NotReady[];
  /** Undefined where it cannot be read. */
  schema: SchemaState | undefined;
}

export async function readReadiness(ground: Ground): Promise<Readiness> {
  const stopping = { check: "stopping" as const, detail: "The service is stopping." };
  const [database, folder] = await Promise.all([
    lookAtDatabase(ground.db),
    folderReason(ground.dataFolder),
  ]);
  const found = [
    ground.isDraining() ? stopping : undefined,
    database.reason,
    ground.queue && !ground.queue.isRunning() ? QUEUE_STOPPED : undefined,
    folder,
  ];
  return { reasons: found.filter((reason) => reason !== undefined), schema: database.schema };
}

const QUEUE_STOPPED = {
  check: "queue" as const,
  detail:
    "The scheduled work has not begun or has stopped: no mail, notice or import goes on from " +
    "here. The log says why; start the service again.",
};

async function lookAtDatabase(
  db: Database,
): Promise<{ reason?: NotReady | undefined; schema: SchemaState | undefined }> {
  try {
    await askDatabase(db);
  } catch {
    const detail = "The database does not answer.";
    return { reason: { check: "database", detail }, schema: undefined };
  }
  try {
    const schema = await readSchema(db);
    const detail = schemaSentence(schema);
    return { reason: detail === undefined ? undefined : { check: "schema", detail }, schema };
  } catch {
    const detail = "Which migrations were applied cannot be read. Start the service again.";
    return { reason: { check: "schema", detail }, schema: undefined };
  }
}

/** Undefined where the schema is the program's; a later program's may be there beside it. */
export function schemaSentence({ pending, failed, changed }: SchemaState): string | undefined {
  if (failed.length > 0) {
    return (
      `These migrations began and did not end: ${some(failed)}. ` +
      "Look at the database's log, then start the service again."
    );
  }
  if (pending.length > 0) {
    return (
      `These migrations are not applied: ${some(pending)}. ` +
      "Start the service again; it applies them."
    );
  }
  if (changed.length > 0) {
    return (
      `These migrations were applied from another text: ${some(changed)}. ` +
      "Put back the files as they were released."
    );
  }
  return undefined;
}

function some(names: readonly string[]): string {
  const rest = names.length - NAMED_MOST;
  const shown = names.slice(0, NAMED_MOST).join(", ");
  return rest > 0 ? `${shown} and ${rest} more` : shown;
}

async function folderReason(dataFolder: string): Promise<NotReady | undefined> {
  const file = join(dataFolder, `.writable-${randomUUID()}`);
  try {
    await writeFile(file, TRIAL, { mode: 0o600, flush: true });
    return undefined;
  } catch (error) {
    const code = (error as { code?: unknown }).code;
    return { check: "data-folder", detail: `${WHY[String(code)] ?? WHY.other} ${FREE_IT}` };
  } finally {
    await rm(file, { force: true }).catch(() => undefined);
  }
}

const FREE_IT = "Photos and papers cannot be kept until that is mended.";
const WHY: Record<string, string> = {
  ENOSPC: "The disk of the data folder is full.",
  EDQUOT: "The disk of the data folder is full.",
  ENOENT: "The data folder is not there.",
  ENOTDIR: "The data folder is not there.",
  EACCES: "The service may not write into the data folder.",
  EPERM: "The service may not write into the data folder.",
  EROFS: "The disk of the data folder is mounted for reading only.",
  other: "The data folder cannot be written.",
};
