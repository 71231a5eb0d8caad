// What the sender reads from the store and writes back to it.
import type { OpResult, Packet, TabletOp, TabletVisit } from "../../features/tablet/schemas.ts";
import type { Keeper, KeptPhoto } from "../contract.ts";

export interface WaitingRow {
  deviceId: string;
  /** Of the first operation that waits. */
  firstSeq: number;
}

/** When a reply came, by both clocks; the server's is missing where the reply did not tell it. */
export interface ReplyTime {
  at: string;
  serverAt?: string | undefined;
}

export type PhotoProgress = Partial<Pick<KeptPhoto, "sentBytes" | "state" | "problem">>;

export interface Sending {
  readonly firmId: string;
  /** Names this store among those of the browser: for the lock of the one sender. */
  readonly name: string;
  /** Rows in which something waits, the present one last. */
  waitingRows(): Promise<WaitingRow[]>;
  /** Operations from that place on without a gap, also those settled before. */
  opsFrom(deviceId: string, fromSeq: number, most: number): Promise<TabletOp[]>;
  settle(deviceId: string, results: readonly OpResult[], time: ReplyTime): Promise<void>;
  moveRow(deviceId: string, fromSeq: number): Promise<void>;
  /** Photos to be sent whose operation the server has. */
  waitingPhotos(): Promise<KeptPhoto[]>;
  photoBytes(sha256: string): Promise<ArrayBuffer | undefined>;
  notePhoto(photo: KeptPhoto, progress: PhotoProgress, time?: ReplyTime): Promise<void>;
  /** The ETag of the list that the visits of the packets were taken from. */
  dayTag(): Promise<string | undefined>;
  /** Version of the packet of each job on the list; undefined where there is none yet. */
  wantedPackets(): Promise<{ jobId: string; wanted: string; held: string | undefined }[]>;
  takeDay(visits: readonly TabletVisit[], tag: string | undefined): Promise<void>;
  takePacket(packet: Packet, fetchedAt: string): Promise<void>;
  /** Why the packet of a listed visit was not had; told with the visit until it is. */
  notePacketProblem(jobId: string, problem: string): Promise<void>;
  /** Drops what is settled for long enough by the server's clock, and packets no longer needed. */
  tidy(serverTime: string, isOpen: (jobId: string) => boolean): Promise<void>;
  /** Takes the visits and their packets away, but for jobs of which something is unsent. */
  clearAway(): Promise<void>;
  /** Called after this tab kept an operation. Returns the way to stop. */
  onKept(listener: () => void): () => void;
  close(): Promise<void>;
}

export type TabletStore = Keeper & Sending;
