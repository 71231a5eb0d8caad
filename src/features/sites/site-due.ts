import type { Database } from "../../db/client.ts";
import { dueSites, type SiteDue } from "../firmware/due-list.ts";

/** What is due at one site, by the one path to what is due: the list from just before it. */
export async function dueAtSite(
  db: Database,
  { firmId, siteId, now }: { firmId: string; siteId: string; now: Date },
): Promise<SiteDue | undefined> {
  const page = { after: idBefore(siteId), most: 1 };
  const [site] = await dueSites(db, { firmId, filter: {}, now }, page);
  return site?.id === siteId ? site : undefined;
}

/** The id that is the next lower one in the order of ids. */
function idBefore(id: string): string {
  const number = BigInt(`0x${id.replaceAll("-", "")}`) - 1n;
  const digits = number.toString(16).padStart(32, "0");
  return digits.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}
