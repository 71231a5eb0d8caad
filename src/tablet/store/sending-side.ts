// The store's side that the sender reads and writes.
import { moveRow } from "./move-row.ts";
import * as shelf from "./packet-shelf.ts";
import type { StoreParts } from "./parts.ts";
import { dropSettled } from "./retention.ts";
import type { Sending } from "./sending.ts";
import { notePhoto, opsFrom, settleOps } from "./settle.ts";
import { waitingPhotos, waitingRows } from "./waiting.ts";

export function sendingOf(parts: StoreParts): Sending {
  const { firmId, name, connection, changes } = parts;
  return {
    firmId,
    name,
    ...factsOf(parts),
    ...packetsOf(parts),
    onKept: (listener) => changes.onKept(listener),
    close: async () => {
      changes.close();
      await connection.close();
    },
  };
}

const tellingAfter =
  ({ changes }: StoreParts) =>
  async (write: Promise<unknown>): Promise<void> => {
    await write;
    changes.tell("changed");
  };

type Facts = "waitingRows" | "opsFrom" | "settle" | "moveRow";
type Photos = "waitingPhotos" | "photoBytes" | "notePhoto";

function factsOf(parts: StoreParts): Pick<Sending, Facts | Photos> {
  const { connection, changes, platform } = parts;
  const tellAfter = tellingAfter(parts);
  return {
    waitingRows: () => connection.use(waitingRows),
    opsFrom: (deviceId, fromSeq, most) =>
      connection.use((db) => opsFrom(db, deviceId, fromSeq, most)),
    settle: async (deviceId, results, time) => {
      parts.note(await connection.use((db) => settleOps(db, deviceId, results, time)));
      changes.tell("changed");
    },
    moveRow: async (deviceId, fromSeq) => {
      parts.note(await connection.use((db) => moveRow(db, deviceId, fromSeq, platform.newId)));
      changes.tell("changed");
    },
    waitingPhotos: () => connection.use(waitingPhotos),
    photoBytes: (sha256) => connection.use((db) => db.get("photoBytes", sha256)),
    notePhoto: (photo, progress, time) =>
      tellAfter(connection.use((db) => notePhoto(db, photo, progress, time))),
  };
}

type Packets = "dayTag" | "wantedPackets" | "takeDay" | "takePacket" | "notePacketProblem";
type Tidying = "tidy" | "clearAway";

function packetsOf(parts: StoreParts): Pick<Sending, Packets | Tidying> {
  const { connection, changes } = parts;
  const tellAfter = tellingAfter(parts);
  return {
    dayTag: () => connection.use(shelf.dayTag),
    wantedPackets: () => connection.use(shelf.wantedPackets),
    takeDay: (visits, tag) => tellAfter(connection.use((db) => shelf.takeDay(db, visits, tag))),
    takePacket: (packet, fetchedAt) =>
      tellAfter(connection.use((db) => shelf.takePacket(db, packet, fetchedAt))),
    notePacketProblem: async (jobId, problem) => {
      const isNews = await connection.use((db) => shelf.notePacketProblem(db, jobId, problem));
      if (isNews) changes.tell("changed");
    },
    tidy: async (serverTime, isOpen) => {
      await connection.use((db) => dropSettled(db, serverTime));
      await tellAfter(connection.use((db) => shelf.dropPackets(db, isOpen)));
    },
    clearAway: async () => {
      await connection.use(shelf.dropDay);
      await tellAfter(connection.use((db) => shelf.dropPackets(db, () => false)));
    },
  };
}
