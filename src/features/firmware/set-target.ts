import type { FirmTransaction } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import {
  DAYS_BY_SEVERITY,
  type FirmwareSeverity,
  firmwareDeadline,
} from "../../domain/firmware/deadline.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { readFirm } from "../firms/store.ts";
import { findProductModel } from "../product-models/store.ts";
import { findRelease } from "./release-store.ts";
import { findRing } from "./ring-store.ts";
import {
  addTarget,
  findTarget,
  moveTarget,
  type TargetFields,
  type TargetScope,
} from "./target-store.ts";

export interface TargetWish {
  modelId: string;
  releaseId: string;
  /** Last day on time; from the release's severity when left out. */
  dueOn: string | undefined;
  personId: string;
  scope: TargetScope;
  /** Version the edit was made against; undefined where the caller knew of no target. */
  version: number | undefined;
}

export async function setTarget(tx: FirmTransaction, wish: TargetWish, now: Date) {
  const { modelId } = wish;
  if (!(await findProductModel(tx, modelId))) throw notFound("product model");
  const release = await releaseWished(tx, wish);
  const dueOn = wish.dueOn ?? (await deadlineOf(tx, release, now));
  if (dueOn < dayOf(release.releasedOn)) {
    throw invalid("/body/dueOn", `is before the release itself, ${dayOf(release.releasedOn)}`);
  }
  const { scope } = wish;
  if (scope.ringId !== null && !(await findRing(tx, scope.ringId))) {
    throw invalid("/body/ringId", "There is no such ring in your firm.");
  }
  const present = await findTarget(tx, modelId, scope);
  requireVersion(present, wish.version);
  const fields: TargetFields = {
    releaseId: release.id,
    targetKey: release.levelKey,
    setAt: now,
    dueOn: new Date(dueOn),
    setById: wish.personId,
    ...{ state: "open", openedAt: now, heldReason: null },
  };
  const done = present
    ? await moveTarget(tx, present.id, wish.version ?? 0, fields)
    : await addTarget(tx, modelId, scope, fields);
  if (!done) throw editedMeanwhile();
  const target = await findTarget(tx, modelId, scope);
  if (!target) throw new Error("a target just set is not there");
  return { target, created: !present };
}

export async function releaseWished(
  tx: FirmTransaction,
  { modelId, releaseId }: { modelId: string; releaseId: string },
) {
  const release = await findRelease(tx, releaseId);
  if (!release || release.modelId !== modelId) {
    throw invalid("/body/releaseId", "There is no such release of this product model.");
  }
  if (!release.withdrawnOn) return release;
  const withdrawn = `Release ${release.level} was withdrawn on ${dayOf(release.withdrawnOn)}`;
  throw invalid("/body/releaseId", `${withdrawn}. Choose another.`);
}

function requireVersion(present: object | null, version: number | undefined): void {
  if (present && version === undefined) {
    throw new Problem("if-match-needed", "There is a target already; send its ETag as If-Match.");
  }
  if (!present && version !== undefined) throw editedMeanwhile();
}

/** Days run from when the release became the target, or came out where that is later. */
export async function deadlineOf(
  tx: FirmTransaction,
  release: { severity: string; releasedOn: Date; deadlineDays: number | null },
  now: Date,
): Promise<string> {
  const { timeZone } = await readFirm(tx);
  const today = localDay(now.toISOString(), timeZone);
  const [, from = today] = [today, dayOf(release.releasedOn)].sort();
  const severity = release.severity as FirmwareSeverity;
  const { deadlineDays } = release;
  const days =
    deadlineDays === null ? undefined : { ...DAYS_BY_SEVERITY, [severity]: deadlineDays };
  const result = firmwareDeadline({ severity, from, ...(days ? { days } : {}) });
  if (result.ok) return result.deadline;
  throw invalid("/body/dueOn", `${result.problem} Say yourself by when.`);
}

const dayOf = (date: Date): string => date.toISOString().slice(0, 10);
