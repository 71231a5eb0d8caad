// The store's side that the page writes to.
import type { Keeper, KeptOp, NewOp } from "../contract.ts";
import { type HashedPhoto, hashPhotos, keepOp, plainJson } from "./keep.ts";
import { toRefusal } from "./keep-refused.ts";
import type { RowMark } from "./marker.ts";
import { writeOutboxFile } from "./outbox-file.ts";
import type { StoreParts } from "./parts.ts";
import { countLost } from "./reading.ts";
import { restoreFile } from "./restore.ts";
import { dropSentBytes } from "./retention.ts";
import { readRoom } from "./room.ts";

type Keeping = Pick<
  Keeper,
  | "keep"
  | "restore"
  | "outboxFile"
  | "health"
  | "putDraft"
  | "dropDraft"
  | "putSetting"
  | "onChange"
>;

export function keeping(parts: StoreParts): Keeping {
  const { platform, connection, changes } = parts;
  let wasFull = false;
  const written = async <T>(write: () => Promise<T>): Promise<T> => {
    try {
      const done = await write();
      wasFull = false;
      return done;
    } catch (error) {
      const refusal = toRefusal(error);
      wasFull ||= refusal.code === "full";
      throw refusal;
    }
  };
  return {
    keep: (fact) => written(() => keep(parts, fact)),
    restore: (file) => written(() => restore(parts, file)),
    outboxFile: () => connection.use(writeOutboxFile),
    health: async () => {
      const [room, lost] = await Promise.all([
        readRoom(platform.storage, wasFull),
        connection.use(countLost),
      ]);
      return { ...room, lost };
    },
    putDraft: ({ jobId, itemId, subject }, value) =>
      written(() =>
        connection.use(
          async (db) => void (await db.put("drafts", value, [jobId, itemId, subject])),
        ),
      ),
    dropDraft: ({ jobId, itemId, subject }) =>
      connection.use((db) => db.delete("drafts", [jobId, itemId, subject])),
    putSetting: (name, value) =>
      written(() => connection.use(async (db) => void (await db.put("settings", value, name)))),
    onChange: (listener) => changes.onChange(listener),
  };
}

async function keep(parts: StoreParts, fact: NewOp): Promise<KeptOp> {
  const { platform } = parts;
  const photos = await hashPhotos(fact.photos);
  const plain = { ...fact, payload: plainJson(fact.payload) };
  const moment = {
    personId: parts.personId(),
    wallClock: new Date(platform.now()).toISOString(),
    monotonicMs: platform.monotonicMs(),
    newId: platform.newId,
    noted: parts.noted,
  };
  const { kept, marks } = await keepWithRoom(parts, plain, photos, moment);
  parts.note(marks);
  parts.changes.tell("kept");
  return kept;
}

/** Where the room does not do, once more without the pictures that the server has already. */
async function keepWithRoom(
  { connection }: StoreParts,
  fact: NewOp,
  photos: readonly HashedPhoto[],
  moment: Parameters<typeof keepOp>[3],
): Promise<{ kept: KeptOp; marks: RowMark[] }> {
  try {
    return await connection.use((db) => keepOp(db, fact, photos, moment));
  } catch (error) {
    if (toRefusal(error).code !== "full" || !(await connection.use(dropSentBytes))) throw error;
    return connection.use((db) => keepOp(db, fact, photos, moment));
  }
}

async function restore(parts: StoreParts, file: Blob): Promise<number> {
  const { connection, platform, changes } = parts;
  const moment = { wallClock: new Date(platform.now()).toISOString(), newId: platform.newId };
  const { added, marks } = await connection.use((db) => restoreFile(db, file, moment));
  parts.note(marks);
  changes.tell("kept");
  return added;
}
