// Requirement: changes are told in the order of the plan, what was removed at the place where it
// stood, and of a row that was reordered only the fewest members are called moved.

/**
 * The members of both rows, in the order of the later one; a removed member follows the member that
 * it followed.
 * @param before and `after`: names, each at most once in its row
 */
export function mergedOrder(before: readonly string[], after: readonly string[]): string[] {
  const stays = new Set(after);
  const removedAfter = new Map<string | undefined, string[]>();
  let anchor: string | undefined;
  for (const id of before) {
    if (stays.has(id)) anchor = id;
    else removedAfter.set(anchor, [...(removedAfter.get(anchor) ?? []), id]);
  }
  return [
    ...(removedAfter.get(undefined) ?? []),
    ...after.flatMap((id) => [id, ...(removedAfter.get(id) ?? [])]),
  ];
}

/**
 * Members of both rows that do not keep their place among the others, as few as can be: all but a
 * longest row of members that stand in the same order in both.
 */
export function movedMembers(before: readonly string[], after: readonly string[]): Set<string> {
  const place = new Map(before.map((id, index) => [id, index]));
  const common = after.filter((id) => place.has(id));
  const places = common.map((id) => place.get(id) ?? 0);
  const lengths: number[] = [];
  const previous: number[] = [];
  for (let index = 0; index < places.length; index += 1) {
    lengths[index] = 1;
    previous[index] = -1;
    for (let earlier = 0; earlier < index; earlier += 1) {
      const length = (lengths[earlier] ?? 0) + 1;
      if ((places[earlier] ?? 0) >= (places[index] ?? 0) || length <= (lengths[index] ?? 0)) {
        continue;
      }
      lengths[index] = length;
      previous[index] = earlier;
    }
  }
  const moved = new Set(common);
  let at = lengths.indexOf(Math.max(0, ...lengths));
  while (at >= 0) {
    moved.delete(common[at] ?? "");
    at = previous[at] ?? -1;
  }
  return moved;
}
