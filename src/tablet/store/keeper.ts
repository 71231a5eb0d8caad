// The tablet's store, put together: one database a firm, so that two firms on one tablet never mix.
import { Changes } from "./changes.ts";
import { Connection } from "./connection.ts";
import { toRefusal } from "./keep-refused.ts";
import { keeping } from "./keeping.ts";
import { type RowMark, readMarks, writeMarks } from "./marker.ts";
import { browserPlatform, type Platform } from "./platform.ts";
import { askToStay } from "./room.ts";
import { claimRow } from "./rows.ts";
import type { TabletStore } from "./sending.ts";
import { sendingOf } from "./sending-side.ts";
import { shown } from "./shown.ts";

export interface KeeperOptions {
  /** Who is signed in on the tablet now. */
  personId(): string;
  /** The database's name, where it is not the firm's own. */
  name?: string;
  platform?: Partial<Platform>;
}

/** Opens the store of a firm, laying it out or bringing its layout up to date. */
export async function openKeeper(firmId: string, options: KeeperOptions): Promise<TabletStore> {
  const name = options.name ?? `holdpoint-${firmId}`;
  const platform = { ...browserPlatform(name), ...options.platform };
  const changes = new Changes(platform.channel);
  let known: readonly RowMark[] | undefined;
  changes.onElsewhere(() => {
    known = undefined;
  });
  const note = (marks: readonly RowMark[]): void => {
    known = marks;
    platform.marker.write(writeMarks(marks));
  };
  const connection = new Connection(name, async (db) => {
    note(await claimRow(db, readMarks(platform.marker.read()), platform.newId));
  });
  try {
    await connection.use(async () => undefined);
  } catch (error) {
    changes.close();
    throw toRefusal(error);
  }
  void askToStay(platform.storage);
  const { personId } = options;
  const noted = (): readonly RowMark[] | undefined => known;
  const parts = { firmId, name, platform, connection, changes, note, noted, personId };
  return { ...keeping(parts), ...shown(parts), ...sendingOf(parts) };
}
