// What a step of an import is handed.
import type { Place } from "./import-state.ts";
import type { ImportRow, Lease } from "./store.ts";

export interface Desk extends Place {
  now(): Date;
  onFault(error: unknown, importId: string): void;
  /** Set when the process is to end: what is under way is given back. */
  stop?: AbortSignal | undefined;
}

/** What a step is handed. */
export interface Task {
  desk: Desk;
  row: ImportRow;
  lease: Lease;
  /** Renews the claim and tells how far it is; throws where the import was given up meanwhile. */
  beat(done?: number, total?: number): Promise<void>;
}

/** The import is not this worker's any more, or the process is to end. */
export class GivenUp extends Error {}
