// Requirement: an axis is marked at round values that a reader can count by (1, 2 or 5 times a
// power of ten), and its first and last mark enclose the data.

export interface Scale {
  /** From the first mark to the last, each a round value. */
  marks: number[];
  least: number;
  most: number;
}

/**
 * A scale from zero up to at least `most`, of at most `marksMost` steps.
 * @param most greatest value shown, in whatever unit; zero or less gives a scale to 1
 * Source: steps of 1, 2 and 5 times a power of ten, as preferred numbers (ISO 3, series R10/3,
 * rounded); common practice.
 */
export function scaleTo(most: number, marksMost = 6): Scale {
  const top = Number.isFinite(most) && most > 0 ? most : 1;
  const rough = top / marksMost;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((factor) => factor * power).find((size) => size >= rough) ?? top;
  const count = Math.ceil(top / step - 1e-9);
  const marks = Array.from({ length: count + 1 }, (_, index) =>
    Number((index * step).toPrecision(12)),
  );
  return { marks, least: 0, most: marks.at(-1) ?? top };
}
