import type { DraftItem, DraftStage } from "../../domain/plan/edit.ts";

/** Enough of each kind to be opened and filled in; the plan's check tells what is still missing. */
const BEGINNINGS: Readonly<Record<string, object>> = {
  measure: { unit: "V", limit: {} },
  tighten: { unit: "N·m", points: 4, limit: {} },
  count: { limit: { count: 1 } },
  choose: { options: [] },
  identify: { what: "serial" },
  set: { positions: [] },
  photo: { photos: 1 },
  sign: { whose: "customer" },
};

/** A new item of the kind, named after its title by a name that no other item has. */
export function newItem(
  stages: readonly DraftStage[],
  { kind, title }: { kind: string; title: string },
): DraftItem {
  const taken = stages.flatMap(({ items }) => items.map(({ id }) => id));
  const plain = title
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "_")
    .replace(/^[_\d]+|_+$/g, "")
    .slice(0, 40);
  const stem = plain === "" ? kind : plain;
  let id = stem;
  for (let number = 2; taken.includes(id); number += 1) id = `${stem}_${number}`;
  return { kind, id, title, do: "", holdPoint: true, ...BEGINNINGS[kind] };
}
