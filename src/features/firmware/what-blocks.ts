// What stands in the way of an update that is due: a ring that was stopped, or an order of steps
// that does not exist. Looked for only where some release of the firm sets conditions.
import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import type { SiteDue } from "./due-list.ts";
import { siteSteps } from "./site-steps.ts";
import { hasConditions } from "./steps-store.ts";

export interface Block {
  code: "ring-held" | "no-safe-order" | "order-unclear";
  sentence: string;
}

/** Blocks by site of one page; a site that nothing blocks is left out. */
export async function whatBlocks(
  db: Database,
  firmId: string,
  sites: readonly SiteDue[],
): Promise<Map<string, Block[]>> {
  return inFirm(db, firmId, async (tx) => {
    const looked = await hasConditions(tx);
    const found = new Map<string, Block[]>();
    for (const { id, units } of sites) {
      const blocks: Block[] = [];
      if (units.some(({ isHeld }) => isHeld)) {
        const sentence = "The release was stopped in this ring: update nothing for now.";
        blocks.push({ code: "ring-held", sentence });
      }
      if (looked && units.length > 0) blocks.push(...orderBlocks((await siteSteps(tx, id)).order));
      if (blocks.length > 0) found.set(id, blocks);
    }
    return found;
  });
}

function orderBlocks(order: Awaited<ReturnType<typeof siteSteps>>["order"]): Block[] {
  if (order.state === "in-order") return [];
  const code = order.state === "no-order" ? "no-safe-order" : "order-unclear";
  return [{ code, sentence: order.sentence }];
}
