// What making an export is handed.
import type { Config } from "../../config.ts";
import type { Database } from "../../db/client.ts";
import type { ExportRow, Lease } from "./store.ts";

export interface Desk {
  db: Database;
  config: Config;
  firmId: string;
  now(): Date;
  onFault(error: unknown, exportId: string): void;
  /** Set when the process is to end: what is under way is given back. */
  stop?: AbortSignal | undefined;
}

export interface Task {
  desk: Desk;
  row: ExportRow;
  lease: Lease;
  /** Renews the claim and tells how far it is; throws where the export was given up meanwhile. */
  beat(jobsDone: number): Promise<void>;
}

/** The export is not this worker's any more, or the process is to end. */
export class GivenUp extends Error {}
