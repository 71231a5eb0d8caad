import type { z } from "zod";
import type { FirmTransaction } from "../../db/scope.ts";
import type { Instrument } from "./schemas.ts";
import { shown } from "./shown.ts";
import type { Here } from "./standing.ts";
import { type InstrumentFilter, listInstruments } from "./store.ts";

const BATCH = 200;

/**
 * Instruments as they stand, in order of id. Fitness is for the rules to say, so that filter looks
 * at the firm's instruments batch by batch until the page is full.
 */
export async function listStanding(
  tx: FirmTransaction,
  { fit, ...filter }: InstrumentFilter & { fit?: boolean },
  here: Here,
): Promise<z.infer<typeof Instrument>[]> {
  if (fit === undefined) {
    return (await listInstruments(tx, filter)).map((row) => shown(row, here));
  }
  const found: z.infer<typeof Instrument>[] = [];
  let after = filter.after;
  for (;;) {
    const rows = await listInstruments(tx, { ...filter, most: BATCH, ...(after ? { after } : {}) });
    const standing = rows.map((row) => shown(row, here));
    found.push(...standing.filter(({ fitNow }) => fitNow === fit));
    after = rows.at(-1)?.id;
    if (rows.length < BATCH || found.length >= filter.most) return found.slice(0, filter.most);
  }
}
