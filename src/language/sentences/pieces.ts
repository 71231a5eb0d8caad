/** Where one sentence may end and the next begin, and parts that are told one by one. */
const JOINT = /(?<=[.!?]["”)]?)\s+|; |\n+/g;

/** A text as pieces with what joins them: `joints[n]` stands after `pieces[n]`. */
export interface Pieces {
  pieces: readonly string[];
  joints: readonly string[];
}

export function piecesOf(text: string): Pieces {
  const pieces: string[] = [];
  const joints: string[] = [];
  let from = 0;
  for (const { index, 0: joint } of text.matchAll(JOINT)) {
    pieces.push(text.slice(from, index));
    joints.push(joint);
    from = index + joint.length;
  }
  pieces.push(text.slice(from));
  return { pieces, joints };
}

/** A sentence of more pieces is told piece by piece. */
const SPAN_MOST = 6;

/**
 * The way to cut a text at its joints that `worth` finds best, longer parts first where it finds
 * two ways alike: a sentence may hold a full stop that ends nothing, as in a title.
 */
export function bestParts<Part>(
  { pieces, joints }: Pieces,
  partOf: (text: string) => Part,
  worth: (part: Part) => number,
): Part[] {
  type Way = { worth: number; parts: readonly Part[] };
  const best: Way[] = [{ worth: 0, parts: [] }];
  for (let end = 1; end <= pieces.length; end += 1) {
    let way: Way | undefined;
    for (let start = Math.max(0, end - SPAN_MOST); start < end; start += 1) {
      const part = partOf(joined(pieces, joints, start, end));
      const before = best[start] as Way;
      const total = before.worth + worth(part);
      if (!way || total > way.worth) way = { worth: total, parts: [...before.parts, part] };
    }
    best.push(way as Way);
  }
  return [...(best.at(-1) as Way).parts];
}

const joined = (
  pieces: readonly string[],
  joints: readonly string[],
  start: number,
  end: number,
): string =>
  pieces
    .slice(start, end)
    .map((piece, index) =>
      start + index < end - 1 ? piece + (joints[start + index] ?? "") : piece,
    )
    .join("");
