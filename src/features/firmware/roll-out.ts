// A release goes from ring to ring: the first opens at once, each of the others when the one before
// it has passed. What a ring does is decided from its figures, and only a ring that is open is
// stopped.
import type { FirmTransaction } from "../../db/scope.ts";
import { type RingProgress, ringProgress } from "../../domain/firmware/ring-progress.ts";
import { notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { findProductModel } from "../product-models/store.ts";
import { raiseEvent } from "../webhooks/raise-event.ts";
import { listRings, type RingFigures, ringFigures } from "./ring-store.ts";
import { deadlineOf, releaseWished } from "./set-target.ts";
import {
  addTarget,
  EVERYWHERE,
  findTarget,
  findTargetById,
  moveTarget,
  openRingTargets,
  removeTarget,
  type TargetFields,
  targetsOf,
} from "./target-store.ts";

type RingTarget = NonNullable<Awaited<ReturnType<typeof findTargetById>>>;
const DAY_MS = 86_400_000;

export interface RollOutWish {
  modelId: string;
  releaseId: string;
  personId: string;
}

/** Sets the release as the target of every ring; it takes the place of a roll-out before it. */
export async function startRollOut(tx: FirmTransaction, wish: RollOutWish, now: Date) {
  const { modelId } = wish;
  if (!(await findProductModel(tx, modelId))) throw notFound("product model");
  const release = await releaseWished(tx, wish);
  const rings = await listRings(tx);
  if (rings.length === 0) {
    throw new Problem("conflict", "Your firm has no rings. Add one, or set a target instead.");
  }
  const dueOn = new Date(await deadlineOf(tx, release, now));
  for (const [index, ring] of rings.entries()) {
    const scope = { ringId: ring.id, region: null };
    const fields: TargetFields = {
      ...{ releaseId: release.id, targetKey: release.levelKey, setAt: now, dueOn },
      ...{ setById: wish.personId, heldReason: null },
      ...(index === 0 ? { state: "open", openedAt: now } : { state: "waiting", openedAt: null }),
    };
    const present = await findTarget(tx, modelId, scope);
    if (present) await moveTarget(tx, present.id, present.version, fields);
    else await addTarget(tx, modelId, scope, fields);
  }
  return rollOut(tx, modelId, now);
}

/** The targets of a model with what each ring has come to. */
export async function rollOut(tx: FirmTransaction, modelId: string, now: Date) {
  const targets = await targetsOf(tx, modelId);
  const shown = [];
  for (const target of targets) shown.push({ target, progress: await progressOf(tx, target, now) });
  return shown;
}

export async function progressOf(
  tx: FirmTransaction,
  target: RingTarget,
  now: Date,
): Promise<(RingProgress & RingFigures) | null> {
  const { ring, ringId, openedAt } = target;
  if (!ring || ringId === null || openedAt === null) return null;
  const { updatedLeast } = ring;
  const figures = await ringFigures(tx, { ...target, ringId, openedAt, updatedLeast });
  const since = figures.enoughAt === null ? undefined : now.getTime() - figures.enoughAt.getTime();
  const daysSinceEnough = since === undefined ? undefined : Math.floor(since / DAY_MS);
  return { ...ringProgress({ ...figures, daysSinceEnough }, ring), ...figures };
}

/** A manager's word: opens a ring that waits, or one that was held. */
export async function openRing(tx: FirmTransaction, id: string, version: number, now: Date) {
  const target = await ringTarget(tx, id);
  if (target.state !== "waiting" && target.state !== "held") {
    throw new Problem("conflict", `This ring is ${target.state} already.`);
  }
  // What failed before the ring was held has been dealt with: it counts from here on.
  await move(tx, target, version, { state: "open", openedAt: now, heldReason: null });
  return findTargetById(tx, id);
}

export async function holdRing(
  tx: FirmTransaction,
  id: string,
  version: number,
  reason: string,
): Promise<RingTarget | null> {
  const target = await ringTarget(tx, id);
  if (target.state !== "open") throw new Problem("conflict", "Only an open ring can be held.");
  await move(tx, target, version, { state: "held", heldReason: reason });
  return findTargetById(tx, id);
}

/** All rings passed: the release becomes the model's target everywhere, and the rings are done. */
export async function completeRollOut(
  tx: FirmTransaction,
  modelId: string,
  personId: string,
  now: Date,
): Promise<void> {
  const rings = (await targetsOf(tx, modelId)).filter(({ ringId }) => ringId !== null);
  const [first] = rings;
  if (!first || rings.some(({ state }) => state !== "passed")) {
    throw new Problem("conflict", "Every ring has to have passed before the roll-out is complete.");
  }
  const { releaseId, targetKey, dueOn } = first;
  const fields = { releaseId, targetKey, dueOn, setAt: now, setById: personId };
  const everywhere = await findTarget(tx, modelId);
  if (everywhere) await moveTarget(tx, everywhere.id, everywhere.version, fields);
  else await addTarget(tx, modelId, EVERYWHERE, { ...fields, state: "open", openedAt: now });
  for (const { id } of rings) await removeTarget(tx, id);
}

export interface RingDecision {
  targetId: string;
  modelId: string;
  decision: "held" | "passed" | "opened";
  sentence: string;
}

/** Looks at every open ring: stops it, or lets it pass and opens the next where that is wished. */
export async function decideRings(tx: FirmTransaction, now: Date): Promise<RingDecision[]> {
  const decisions = await decide(tx, now);
  for (const { decision, ...data } of decisions) {
    await raiseEvent(tx, { kind: `firmware.ring.${decision}`, data }, now);
  }
  return decisions;
}

async function decide(tx: FirmTransaction, now: Date): Promise<RingDecision[]> {
  const decisions: RingDecision[] = [];
  for (const target of await openRingTargets(tx)) {
    const progress = await progressOf(tx, target, now);
    if (!progress || progress.verdict === "wait") continue;
    const { id: targetId, modelId, version } = target;
    const { sentence } = progress;
    if (progress.verdict === "hold") {
      await moveTarget(tx, targetId, version, { state: "held", heldReason: sentence });
      decisions.push({ targetId, modelId, decision: "held", sentence });
      continue;
    }
    await moveTarget(tx, targetId, version, { state: "passed" });
    decisions.push({ targetId, modelId, decision: "passed", sentence });
    if (target.ring?.opensItself) decisions.push(...(await openNext(tx, target, now)));
  }
  return decisions;
}

async function openNext(
  tx: FirmTransaction,
  passed: RingTarget,
  now: Date,
): Promise<RingDecision[]> {
  const next = (await targetsOf(tx, passed.modelId)).find(
    ({ state, releaseId }) => state === "waiting" && releaseId === passed.releaseId,
  );
  if (!next) return [];
  await moveTarget(tx, next.id, next.version, { state: "open", openedAt: now });
  const sentence = `${next.ring?.name ?? "The next ring"} opened.`;
  return [{ targetId: next.id, modelId: next.modelId, decision: "opened", sentence }];
}

async function ringTarget(tx: FirmTransaction, id: string): Promise<RingTarget> {
  const target = await findTargetById(tx, id);
  if (!target || target.ringId === null) throw notFound("ring's target");
  return target;
}

async function move(
  tx: FirmTransaction,
  { id }: RingTarget,
  version: number,
  fields: Partial<TargetFields>,
): Promise<void> {
  if (!(await moveTarget(tx, id, version, fields))) throw editedMeanwhile();
}
