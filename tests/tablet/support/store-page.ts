// The store and the sending in a page without views, for tests to drive from outside.
import type { OpPayload, TabletOp } from "../../../src/features/tablet/schemas.ts";
import type { NewPhoto } from "../../../src/tablet/contract.ts";
import { openKeeper } from "../../../src/tablet/store/keeper.ts";
import { signIn } from "../../../src/tablet/sync/session.ts";
import { createSync } from "../../../src/tablet/sync/sync.ts";

interface Told {
  told?: (op: TabletOp) => void;
}

/** A picture of one point; what follows a PNG's end is not part of the picture. */
const POINT =
  "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR42mNoAAAAggCB2kUIOwAAAABJRU5ErkJggg==";

function pictureOf(bytes: number): NewPhoto {
  const point = Uint8Array.from(atob(POINT), (character) => character.charCodeAt(0));
  const content = new Uint8Array(Math.max(bytes, point.length + 16));
  content.set(point);
  for (let from = point.length; from < content.length; from += 65_536) {
    crypto.getRandomValues(content.subarray(from, from + 65_536));
  }
  const blob = new Blob([content], { type: "image/png" });
  return { blob, mediaType: "image/png", itemId: "wall_gap", subject: "" };
}

function holdUp(ms: number): void {
  const from = performance.now();
  let now = from;
  while (now - from < ms) now = performance.now();
}

async function open(firmId: string, personId: string, jobId: string) {
  const store = await openKeeper(firmId, { personId: () => personId });
  const sync = createSync(store);
  const keepFact = async (payload: OpPayload, bytes = 0): Promise<TabletOp> => {
    const photos = bytes > 0 ? [pictureOf(bytes)] : [];
    return (await store.keep({ jobId, payload, photos })).op;
  };
  const keep = (bytes = 0): Promise<TabletOp> =>
    keepFact({ kind: "snag", text: `Lid missing ${Math.random()}` }, bytes);
  return {
    keep,
    keepFact,
    /**
     * Keeps without end and tells each, until the page is no more. A page that is held up after
     * each has nothing more to do with it: what is not on its way to the disk by then is lost.
     */
    keepOn: async (bytes: number, holdUpMs: number): Promise<void> => {
      for (;;) {
        (window as Told).told?.(await keep(bytes));
        holdUp(holdUpMs);
      }
    },
    /** What was kept, or why it was not. */
    tryToKeep: (bytes: number): Promise<TabletOp | string> =>
      keep(bytes).catch((error: { code?: string }) => error.code ?? String(error)),
    ops: async () => (await store.ops()).map(({ op }) => op),
    counts: () => store.counts(),
    health: () => store.health(),
    photos: () => store.photos(),
    signIn,
    round: () => sync.round(),
    file: async () => (await store.outboxFile()).text(),
    restore: (text: string) => store.restore(new Blob([text])),
  };
}

Object.assign(window, { openProbe: open });
