// Texts at their places in what is sent and what comes back: "name", "kit/0/name".

type Node = Record<string, unknown>;

const stepsTo = (place: string): [steps: string[], last: string] => {
  const steps = place.split("/");
  const last = steps.pop()!;
  return [steps, last];
};

const nodeAt = (value: unknown, steps: readonly string[]): Node =>
  steps.reduce((node, step) => (node[step] ?? {}) as Node, value as Node);

/** A copy with the texts in their places. */
export function withTexts(rest: object, texts: Record<string, string>): object {
  const filled = structuredClone(rest);
  for (const [place, text] of Object.entries(texts)) {
    const [steps, last] = stepsTo(place);
    nodeAt(filled, steps)[last] = text;
  }
  return filled;
}

/** The texts that stand in the places. */
export const textsAt = (value: unknown, places: readonly string[]): Record<string, unknown> =>
  Object.fromEntries(
    places.map((place) => {
      const [steps, last] = stepsTo(place);
      return [place, nodeAt(value, steps)[last]];
    }),
  );
