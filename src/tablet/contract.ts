// Requirement: the parts of the tablet's page and what they promise each other. The views know only
// these; the store and the sending are built behind them.
import type {
  OpPayload,
  OpResult,
  Packet,
  TabletOp,
  TabletVisit,
} from "../features/tablet/schemas.ts";

/** waiting: on this tablet only. held and refused: on the server, for the office to look at. */
export type OpState = "waiting" | "stored" | "held" | "refused";

export interface KeptOp {
  op: TabletOp;
  state: OpState;
  /** RFC 3339, by the tablet's clock. */
  keptAt: string;
  /** The server's reply, once there is one. */
  result?: OpResult;
  /** When the reply came; the operation stays for 30 days after. */
  settledAt?: string;
}

export type PhotoState = "waiting" | "sent" | "refused";

export interface KeptPhoto {
  sha256: string;
  jobId: string;
  itemId: string;
  subject: string;
  mediaType: "image/jpeg" | "image/png" | "image/webp";
  bytes: number;
  /** How much of it the server has. */
  sentBytes: number;
  state: PhotoState;
  problem?: string;
}

export interface NewPhoto {
  blob: Blob;
  mediaType: KeptPhoto["mediaType"];
  itemId: string;
  subject: string;
}

export interface HeldPacket {
  packet: Packet;
  fetchedAt: string;
  /** The visit as it stood on the list; absent once it was taken off. */
  visit?: TabletVisit;
}

/** A visit of the last list of the day, whether its packet is here or not. */
export interface ListedVisit extends TabletVisit {
  /** Why its packet could not be fetched, where the service said so. */
  problem?: string;
}

/** Who signed in on this tablet last; known without signal. */
export interface Profile {
  firmId: string;
  personId: string;
  name: string;
  roles: string[];
  /** Which the person reads; absent where an older page signed in. */
  language?: string;
}

export interface NewOp {
  jobId: string;
  payload: OpPayload;
  photos: readonly NewPhoto[];
  /** Of the packet on the screen, where it is not the newest that the tablet holds. */
  seen?: { jobVersion: number; lastOrder: number };
}

export interface Counts {
  /** Operations on this tablet, and those of them that the server has not. */
  kept: number;
  waiting: number;
  held: number;
  refused: number;
  photosWaiting: number;
  photoBytesWaiting: number;
}

export interface DraftKey {
  jobId: string;
  itemId: string;
  subject: string;
}

/** What a read of the store found to be wrong with it; each is told on the page. */
export interface StoreHealth {
  /** Whether the browser promised not to clear the store. */
  persistent: boolean;
  /** Operations known to have been kept here and gone since, unsent: the store was cleared. */
  lost: number;
  /** "full" after a write was refused for want of room. */
  room: "enough" | "low" | "full";
}

/** The tablet's store: nothing is shown as kept before `keep` has come back. */
export interface Keeper {
  /**
   * Writes the operation and its photos in one transaction with strict durability.
   * Rejects, with nothing written, when the store is full.
   */
  keep(fact: NewOp): Promise<KeptOp>;
  ops(jobId?: string): Promise<KeptOp[]>;
  photos(jobId?: string): Promise<KeptPhoto[]>;
  photoBlob(sha256: string): Promise<Blob | undefined>;
  packets(): Promise<HeldPacket[]>;
  packet(jobId: string): Promise<HeldPacket | undefined>;
  /** Of the last list of the day that the service gave, in its order. */
  visits(): Promise<ListedVisit[]>;
  counts(): Promise<Counts>;
  health(): Promise<StoreHealth>;
  /** Half-typed values, so that a call or a dead battery costs nothing. */
  putDraft(key: DraftKey, value: unknown): Promise<void>;
  draft(key: DraftKey): Promise<unknown>;
  dropDraft(key: DraftKey): Promise<void>;
  /** Small choices: the instrument last used for a class, light or dark. */
  putSetting(name: string, value: unknown): Promise<void>;
  setting(name: string): Promise<unknown>;
  /** JSON Lines of every operation not yet settled, photos as base64; the last resort. */
  outboxFile(): Promise<Blob>;
  /** Takes an outbox file back in; how many were new. */
  restore(file: Blob): Promise<number>;
  /** Called after anything changed, also from another tab. Returns the way to stop. */
  onChange(listener: () => void): () => void;
}

export type SyncState =
  /** Everything the server should have, it has. */
  | "settled"
  | "sending"
  /** No signal, or the server does not answer. */
  | "offline"
  /** The session ended: nothing is lost, sign in to go on. */
  | "sign-in"
  /** A reply that is not the service's, such as a hotel's sign-on page. */
  | "stranger"
  /** The service is busy; it will be tried again at `retryAt`. */
  | "busy"
  /** The service no longer reads what this version of the page sends: load the new one. */
  | "outdated";

export interface SyncStatus {
  state: SyncState;
  /** RFC 3339; of the last time the server answered. */
  lastContactAt?: string;
  retryAt?: string;
  sentence: string;
}

/** Sends what waits and fetches the day's packets: by itself, and when asked. */
export interface Sync {
  status(): SyncStatus;
  /** One round now; comes back when it is through. */
  round(): Promise<SyncStatus>;
  signIn(
    email: string,
    password: string,
    code?: string,
  ): Promise<{ ok: true; profile: Profile } | { ok: false; problem: string }>;
  signOut(): Promise<void>;
  start(): void;
  stop(): void;
  onChange(listener: () => void): () => void;
}
