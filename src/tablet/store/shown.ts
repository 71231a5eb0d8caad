// The store's side that the page reads.
import type { Keeper } from "../contract.ts";
import { readVisits } from "./packet-shelf.ts";
import type { StoreParts } from "./parts.ts";
import * as reading from "./reading.ts";

type Shown = Pick<
  Keeper,
  "ops" | "photos" | "photoBlob" | "packets" | "packet" | "visits" | "counts" | "draft" | "setting"
>;

export const shown = ({ connection }: StoreParts): Shown => ({
  ops: (jobId) => connection.use((db) => reading.readOps(db, jobId)),
  photos: (jobId) => connection.use((db) => reading.readPhotos(db, jobId)),
  photoBlob: (sha256) => connection.use((db) => reading.readPhotoBlob(db, sha256)),
  packets: () => connection.use(reading.readPackets),
  packet: (jobId) => connection.use((db) => reading.readPacket(db, jobId)),
  visits: () => connection.use(readVisits),
  counts: () => connection.use(reading.readCounts),
  draft: ({ jobId, itemId, subject }) =>
    connection.use((db) => db.get("drafts", [jobId, itemId, subject])),
  setting: (name) => connection.use((db) => db.get("settings", name)),
});
