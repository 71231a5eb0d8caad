// A tablet that tests can set the clock of, clear, crash and switch on again. Its database is an
// IndexedDB of its own kind in memory.
import "fake-indexeddb/auto";
import { deleteDB } from "idb";
import { uuidv7, V7Generator } from "uuidv7";
import type { NewOp } from "../../../src/tablet/contract.ts";
import { openKeeper } from "../../../src/tablet/store/keeper.ts";
import type { TabletStore } from "../../../src/tablet/store/sending.ts";

export const FIRM_ID = "019ac4a1-0000-7cc1-9d6a-0c8f6f0b7a01";
export const PERSON_ID = "019ac4a1-0000-7cc1-9d6a-0c8f6f0b7a02";
export const JOB_ID = "019ac4a1-0000-7cc1-9d6a-0c8f6f0b7a03";
export const DAY_MS = 86_400_000;

export class TestTablet {
  readonly name = `tablet-${uuidv7()}`;
  /** What cookies and local storage hold; a browser that clears the store leaves it. */
  marker = "";
  /** By how much the tablet's clock is wrong. */
  clockOffByMs = 0;
  clockMs = Date.parse("2026-11-25T10:42:00Z");
  monotonicMs = 1000;
  readonly firmId: string;
  personId: string;
  readonly #open: TabletStore[] = [];
  readonly #ids = new V7Generator();

  constructor(firmId = FIRM_ID, personId = PERSON_ID) {
    this.firmId = firmId;
    this.personId = personId;
  }

  now = (): number => this.clockMs + this.clockOffByMs;

  /** A page, or one more tab of it. */
  async open(): Promise<TabletStore> {
    const store = await openKeeper(this.firmId, {
      personId: () => this.personId,
      name: this.name,
      platform: {
        now: this.now,
        // As in a browser, an id begins with the time that the tablet believes in.
        newId: () => this.#ids.generateOrResetWithTs(this.now()).toString(),
        monotonicMs: () => this.monotonicMs,
        storage: undefined,
        marker: {
          read: () => [this.marker],
          write: (text) => {
            this.marker = text;
          },
        },
      },
    });
    this.#open.push(store);
    return store;
  }

  /** Closes all pages, as a crash or an empty battery does. */
  async switchOff(): Promise<void> {
    await Promise.all(this.#open.splice(0).map((store) => store.close()));
  }

  /** What browsers do for want of room; cookies stay. */
  async clearStore(): Promise<void> {
    await this.switchOff();
    await deleteDB(this.name);
  }
}

let count = 0;
/** A snag: the simplest fact there is, no two with the same words. */
export function snag(jobId = JOB_ID): NewOp {
  count += 1;
  return { jobId, payload: { kind: "snag", text: `Lid missing (${count})` }, photos: [] };
}

export const photoOf = (bytes: Uint8Array<ArrayBuffer>): NewOp["photos"][number] => ({
  blob: new Blob([bytes], { type: "image/png" }),
  mediaType: "image/png",
  itemId: "wall_gap",
  subject: "",
});

export async function keepMany(store: TabletStore, many: number, jobId?: string) {
  const kept = [];
  for (let each = 0; each < many; each += 1) kept.push((await store.keep(snag(jobId))).op);
  return kept;
}

export const seqsOf = (kept: readonly { op: { deviceSeq: number } }[]): number[] =>
  kept.map(({ op }) => op.deviceSeq);
