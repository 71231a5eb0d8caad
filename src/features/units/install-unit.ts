import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, Problem } from "../../errors.ts";
import { appendToLedger } from "../ledger/store.ts";
import { findSite } from "../sites/store.ts";
import {
  type Move,
  type Moved,
  requireAfterLastMove,
  requireJobAt,
  takeJob,
  takeUnit,
} from "./move.ts";
import { addUnitEvent, findLiveSerial, findPackAt, lockBank, placeUnit } from "./move-store.ts";
import type { UnitRow } from "./store.ts";

export interface Installation extends Move {
  unitId: string;
  siteId: string;
  bankId?: string;
  bankPosition?: number;
  note?: string;
}

/** Puts a unit into use at a site, and into its place of a bank. */
export async function installUnit(tx: FirmTransaction, move: Installation): Promise<Moved> {
  const { unitId, siteId, bankId = null, bankPosition = null, personId, at, note } = move;
  const job = await takeJob(tx, move.jobId);
  await requireSite(tx, siteId);
  requireJobAt(job, siteId);
  if (bankId !== null) await takeBankPlace(tx, siteId, bankId, bankPosition);
  const unit = await takeUnit(tx, unitId);
  if (unit.siteId === siteId) return { unitId, moved: false };
  await requireInstallable(tx, unit);
  if (bankId !== null && unit.kind !== "battery-pack") {
    throw invalid("/body/bankId", "Only battery packs belong to a bank.");
  }
  await requireAfterLastMove(tx, at, [unitId]);
  await placeUnit(tx, unitId, { state: "installed", siteId, bankId, bankPosition });
  const event = { unitId, kind: "installed", siteId, jobId: job?.id, personId, at, note } as const;
  const eventId = await addUnitEvent(tx, event);
  if (job) {
    const { serial, modelId } = unit;
    const installedAt = at.toISOString();
    const body = { unitId, serial, modelId, siteId, bankId, bankPosition, eventId, installedAt };
    await appendToLedger(tx, job.id, { kind: "unit.installed", body, at: move.now ?? at });
  }
  return { unitId, moved: true };
}

async function requireSite(tx: FirmTransaction, siteId: string): Promise<void> {
  const site = await findSite(tx, siteId);
  if (!site) throw invalid("/body/siteId", "There is no such site in your firm.");
  if (!site.archivedAt) return;
  throw new Problem("conflict", `${site.reference} is archived. Bring the site back first.`);
}

async function takeBankPlace(
  tx: FirmTransaction,
  siteId: string,
  bankId: string,
  bankPosition: number | null,
): Promise<void> {
  const bank = await lockBank(tx, bankId);
  if (!bank) throw invalid("/body/bankId", "There is no such bank in your firm.");
  if (bank.siteId !== siteId) throw invalid("/body/bankId", "The bank is at another site.");
  if (bankPosition === null) return;
  const there = await findPackAt(tx, bankId, bankPosition);
  if (!there) return;
  const place = `Position ${bankPosition} of ${bank.name} holds ${there.serial}`;
  throw new Problem("conflict", `${place}. Swap that unit, or choose another position.`, {
    unitId: there.id,
  });
}

/** Cells that were damaged are not carried to a house. */
export function requireNoQuarantine({
  id,
  serial,
  quarantinedAt,
}: {
  id: string;
  serial: string;
  quarantinedAt: Date | null;
}): void {
  if (!quarantinedAt) return;
  throw new Problem(
    "conflict",
    `${serial} is in quarantine. Take another unit; only a manager releases it, with a reason.`,
    { unitId: id },
  );
}

/** Refuses a unit that is swapped out or live elsewhere, under whichever product model. */
export async function requireInstallable(
  tx: FirmTransaction,
  unit: UnitRow,
  leavingId?: string,
): Promise<void> {
  const { id, serial } = unit;
  if (unit.state === "swapped") {
    const detail = `${serial} was swapped out. If it is repaired, record its goods-in again first.`;
    throw new Problem("conflict", detail);
  }
  requireNoQuarantine(unit);
  const own = { id: unit.siteId, reference: unit.siteReference };
  const except = leavingId ? [id, leavingId] : [id];
  const live = unit.siteId ? own : (await findLiveSerial(tx, serial, except))?.site;
  if (!live) return;
  throw new Problem(
    "serial-live-elsewhere",
    `${serial} is live at ${live.reference}. Check the label; if the unit really moved, ` +
      `record its removal from ${live.reference} first.`,
    { site: { id: live.id, reference: live.reference } },
  );
}
