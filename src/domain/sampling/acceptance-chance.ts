// Requirement: a sampling plan is shown with what it can and cannot see. Source: the
// hypergeometric distribution (drawing without putting back), a handbook formula.

export interface Drawing {
  readonly lotSize: number;
  readonly sampleSize: number;
  /** Accepted with so many nonconforming in the sample at most. */
  readonly accept: number;
}

/** The chance, 0 to 1, that a lot holding so many nonconforming is accepted. */
export function acceptanceChance(drawing: Drawing, nonconforming: number): number {
  const { lotSize, sampleSize, accept } = drawing;
  let chance = 0;
  for (let found = 0; found <= Math.min(accept, sampleSize, nonconforming); found++) {
    if (sampleSize - found > lotSize - nonconforming) continue;
    chance += Math.exp(
      logChoose(nonconforming, found) +
        logChoose(lotSize - nonconforming, sampleSize - found) -
        logChoose(lotSize, sampleSize),
    );
  }
  return Math.min(1, chance);
}

function logChoose(all: number, some: number): number {
  let sum = 0;
  for (let step = 1; step <= some; step++) sum += Math.log((all - some + step) / step);
  return sum;
}
