// The kinds of place and of thing a siting survey may name, as the location rules of AS/NZS 5139,
// PAS 63100, NFPA 855 and the IRC tell them apart. Rule packs match on these words, so a pack and
// a survey cannot drift apart.

/** Kinds of place. A place may be several at once (a storage space under the stairs). */
export const ROOM_KINDS = [
  "habitable-room",
  "bedroom",
  "bedroom-closet",
  "attached-garage",
  "detached-building",
  "utility-closet",
  "utility-space",
  "storage-space",
  "basement",
  "loft",
  "ceiling-void",
  "wall-cavity",
  "under-stairs",
  "escape-route",
  "outside-wall",
  "ground-mounted",
  "other",
  "unknown",
] as const;
export type RoomKind = (typeof ROOM_KINDS)[number];

export const FEATURE_KINDS = [
  "door",
  "window",
  "vent",
  "exit",
  "ignition-source",
  "unrelated-appliance",
  "stored-flammables",
  "boundary",
  "barrier",
] as const;
export type FeatureKind = (typeof FEATURE_KINDS)[number];

/** What lies behind a door, window, vent or exit. */
export const OPENS_TO = ["habitable-room", "other-dwelling-room", "elsewhere", "unknown"] as const;
export type OpensTo = (typeof OPENS_TO)[number];

/** `habitable-room` → `habitable room`, for sentences and drawings. */
export function plainWords(kind: string): string {
  return kind.replaceAll("-", " ");
}
