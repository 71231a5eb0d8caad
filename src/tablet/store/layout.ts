// Requirement: what was kept with one version of the page is still there with the next. Each change
// of the layout is a step of its own (layout-steps.ts); old steps are never edited.
import type { DBSchema, IDBPDatabase } from "idb";
import type { Packet, TabletVisit } from "../../features/tablet/schemas.ts";
import type { KeptOp, KeptPhoto } from "../contract.ts";

export const LAYOUT_VERSION = 3;

/** The row in which this tablet counts what it keeps now. */
export interface DeviceRow {
  id: string;
  lastSeq: number;
  lastHash: string;
}

export interface StoredOp extends KeptOp {
  /** When the reply came, by the server's clock: the only one that retention believes. */
  serverSettledAt?: string;
}

export interface StoredPhoto extends KeptPhoto {
  serverSettledAt?: string;
}

/** What is asked of a packet often, without reading the whole of it. */
export interface PacketHead {
  jobId: string;
  version: string;
  jobVersion: number;
  lastOrder: number;
  fetchedAt: string;
  visit?: TabletVisit;
}

/** Operations of a row that are known to have been kept and were gone, unsent. */
export interface Loss {
  deviceId: string;
  missing: number[];
  /** By the server's clock, once it has told its time. */
  serverNotedAt?: string;
}

export interface Layout extends DBSchema {
  device: { key: "current"; value: DeviceRow };
  ops: {
    key: [deviceId: string, deviceSeq: number];
    value: StoredOp;
    indexes: { opId: string; jobId: string; state: string };
  };
  photos: {
    key: [jobId: string, sha256: string];
    value: StoredPhoto;
    indexes: { jobId: string; state: string; sha256: string };
  };
  /** By SHA-256. Bytes instead of a Blob: those of some browsers do not outlive a restart. */
  photoBytes: { key: string; value: ArrayBuffer };
  packets: { key: string; value: Packet };
  packetHeads: { key: string; value: PacketHead };
  drafts: { key: [jobId: string, itemId: string, subject: string]; value: unknown };
  settings: { key: string; value: unknown };
  losses: { key: string; value: Loss };
}

export type StoreDatabase = IDBPDatabase<Layout>;

/** Kept means on the disk: the browser is told to wait for it. */
export const STRICT = { durability: "strict" } as const;
