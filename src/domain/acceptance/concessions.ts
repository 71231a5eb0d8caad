// Requirement: a concession (ISO 9000: permission to release what does not conform) counts while it
// is neither revoked nor past its last day by the site's calendar, never for what is
// safety-critical, and never where its grantor took the reading it would release.

import { localDay } from "../dates/zone-time.ts";
import type { ConcessionFacts, JobContext } from "../plan/context.ts";
import type { Item } from "../plan/item.ts";

/** The concessions of one job that count at `context.now`. */
export class LiveConcessions {
  readonly #live = new Map<string, ConcessionFacts[]>();

  constructor({ concessions, now, site }: JobContext) {
    if (concessions.length === 0) return;
    const today = localDay(now, site.timeZone);
    for (const concession of concessions) {
      const { itemId, subject, revoked, expiresOn } = concession;
      if (revoked || (expiresOn !== undefined && expiresOn < today)) continue;
      const key = keyOf(itemId, subject);
      this.#live.set(key, [...(this.#live.get(key) ?? []), concession]);
    }
  }

  /**
   * The concession that releases the item for the subject, given the answer that it would release.
   */
  releasing(
    item: Item,
    subject: string,
    answer: { personId: string } | undefined,
  ): ConcessionFacts | undefined {
    if (item.safetyCritical || this.#live.size === 0) return undefined;
    const live = this.#live.get(keyOf(item.id, subject));
    return live?.find(({ grantedBy }) => grantedBy !== answer?.personId);
  }
}

const keyOf = (itemId: string, subject: string): string => `${itemId}\n${subject}`;
