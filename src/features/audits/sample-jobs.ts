// An audit sample is a function of the period, the limit and the seed: the same address draws it
// again as long as the same jobs stand closed. What is to stay as it was drawn is kept.
import type { FirmTransaction } from "../../db/scope.ts";
import { dayBounds } from "../../domain/dates/zone-time.ts";
import { acceptanceChance } from "../../domain/sampling/acceptance-chance.ts";
import { drawSample } from "../../domain/sampling/draw-sample.ts";
import { LOT_MOST, type QualityLimit, singlePlan } from "../../domain/sampling/single-plan.ts";
import { readFirm } from "../firms/store.ts";
import { closedJobs, findingsOf } from "./store.ts";

export interface SampleAsked {
  from: string;
  to: string;
  limit: QualityLimit;
  seed: string;
}

const SHARES = [1, 2.5, 5, 10, 20] as const;

export async function sampleJobs(tx: FirmTransaction, { from, to, limit, seed }: SampleAsked) {
  const { timeZone } = await readFirm(tx);
  const lot = await closedJobs(tx, {
    from: new Date(dayBounds(from, timeZone).start),
    before: new Date(dayBounds(to, timeZone).end),
    most: LOT_MOST + 1,
  });
  const lotSize = lot.length;
  if (lotSize === 0 || lotSize > LOT_MOST) return { lot: [], lotSize, tooMany: lotSize > LOT_MOST };
  const plan = singlePlan(lotSize, limit);
  const nameOf = ({ reference }: { reference: string }) => reference;
  const drawn = drawSample(lot, { seed, size: plan.sampleSize, nameOf });
  const findings = await findingsOf(
    tx,
    drawn.map(({ id }) => id),
  );
  const chances = SHARES.map((share) => {
    const nonconforming = Math.round((lotSize * share) / 100);
    return { share, nonconforming, chance: acceptanceChance({ lotSize, ...plan }, nonconforming) };
  });
  const told = chances.filter(({ nonconforming }) => nonconforming > 0);
  const jobs = drawn.map((job) => ({ ...job, findingId: findings.get(job.id) }));
  const found = findings.size;
  return {
    lot: lot.map(nameOf),
    lotSize,
    tooMany: false,
    plan,
    chances: told,
    jobs,
    found,
    rejected: found > plan.accept,
  };
}
