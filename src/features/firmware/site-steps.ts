// The order in which a site's units are updated: from the domain's search over what their releases
// say. A release that fits some hardware revisions only is a ladder of its own for those.
import type { FirmTransaction } from "../../db/scope.ts";
import type { LevelRange } from "../../domain/firmware/level-range.ts";
import type { FirmwareScheme } from "../../domain/firmware/levels.ts";
import type { OrderModel, OrderRelease, OrderUnit } from "../../domain/firmware/order-request.ts";
import { type SafeOrder, safeOrder } from "../../domain/firmware/safe-order.ts";
import { releasesOf, type SiteUnit, unitsWithTargets } from "./steps-store.ts";

type Release = Awaited<ReturnType<typeof releasesOf>>[number];
interface Companion {
  modelId: string;
  min?: string;
  below?: string;
}

export interface SiteSteps {
  order: SafeOrder;
  /** Serial numbers of units whose level nobody has read. */
  unread: string[];
}

/** Steps for all units of the site that are below their target, or why there are none. */
export async function siteSteps(tx: FirmTransaction, siteId: string): Promise<SiteSteps> {
  const all = await unitsWithTargets(tx, siteId);
  const unread = all.filter(({ level, targetLevel }) => level === null && targetLevel !== null);
  const units = all.filter(({ level }) => level !== null);
  const releases = await releasesOf(tx, [...new Set(units.map(({ modelId }) => modelId))]);
  const models = ladders(units, releases);
  const order = safeOrder(models, units.map(orderUnit));
  return { order, unread: unread.map(({ serial }) => serial) };
}

/** A unit's ladder: its model, and its revision where releases tell revisions apart. */
const ladderOf = ({ modelCode, hardwareRevision }: SiteUnit): string =>
  hardwareRevision === null ? modelCode : `${modelCode} revision ${hardwareRevision}`;

function orderUnit(unit: SiteUnit): OrderUnit {
  return {
    id: unit.id,
    label: `${unit.modelCode} ${unit.serial}`,
    modelCode: ladderOf(unit),
    level: unit.level ?? "",
    ...(unit.targetLevel === null ? {} : { targetLevel: unit.targetLevel }),
  };
}

function ladders(units: readonly SiteUnit[], releases: readonly Release[]): OrderModel[] {
  const byLadder = new Map(units.map((unit) => [ladderOf(unit), unit]));
  return [...byLadder.entries()].map(([code, unit]) => ({
    code,
    scheme: unit.scheme as FirmwareScheme,
    releases: releases
      .filter(({ modelId }) => modelId === unit.modelId)
      .filter(
        ({ hardwareRevisions }) =>
          hardwareRevisions.length === 0 ||
          unit.hardwareRevision === null ||
          hardwareRevisions.includes(unit.hardwareRevision),
      )
      .map((release) => orderRelease(release, byLadder)),
  }));
}

function orderRelease(release: Release, byLadder: ReadonlyMap<string, SiteUnit>): OrderRelease {
  const { level, fromMin, fromBelow, withdrawnOn } = release;
  const from = rangeOf(fromMin ?? undefined, fromBelow ?? undefined);
  const needs = (release.companions as unknown as Companion[]).flatMap(({ modelId, min, below }) =>
    [...byLadder.entries()]
      .filter(([, unit]) => unit.modelId === modelId)
      .map(([modelCode]) => ({ modelCode, range: rangeOf(min, below) })),
  );
  const hasFrom = from.min !== undefined || from.below !== undefined;
  return {
    level,
    ...(hasFrom ? { from } : {}),
    ...(needs.length > 0 ? { needs } : {}),
    ...(withdrawnOn ? { withdrawn: true } : {}),
  };
}

const rangeOf = (min: string | undefined, below: string | undefined): LevelRange => ({
  ...(min === undefined ? {} : { min }),
  ...(below === undefined ? {} : { below }),
});
