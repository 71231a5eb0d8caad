import { z } from "zod";
import { invalid } from "../../errors.ts";

const Place = z.tuple([z.iso.datetime(), z.guid()]);

/** Where a page of the diary ended: visits are in the order of their start, not of their ids. */
export const cursorOf = (row: { startsAt: string; id: string }): string =>
  `${row.startsAt} ${row.id}`;

export function afterStart(cursor: string | undefined): { startsAt: Date; id: string } | undefined {
  if (cursor === undefined) return undefined;
  const parts = Buffer.from(cursor, "base64url").toString("utf8").split(" ");
  const place = Place.safeParse(parts);
  if (!place.success) throw invalid("/query/cursor", "is not a cursor of this list");
  return { startsAt: new Date(place.data[0]), id: place.data[1] };
}
