import type { FirmTransaction } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { levelKey } from "../../domain/firmware/level-key.ts";
import { type FirmwareScheme, parseLevel } from "../../domain/firmware/levels.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { readFirm } from "../firms/store.ts";
import { findProductModel } from "../product-models/store.ts";
import { raiseEvent } from "../webhooks/raise-event.ts";
import { requireReach } from "./release-reach.ts";
import { addRelease, editRelease, findRelease, withdrawRelease } from "./release-store.ts";
import type { NewRelease, ReleaseEdit } from "./schemas.ts";

/** A release that has no place in the order of its model's levels could never be compared. */
export async function keepRelease(tx: FirmTransaction, release: NewRelease) {
  const model = await findProductModel(tx, release.modelId);
  if (!model) throw invalid("/body/modelId", "There is no such product model in your firm.");
  const key = keyOrRefuse(model.firmwareScheme as FirmwareScheme, release.level);
  await requireReach(tx, model, release.level, release);
  const releasedOn = new Date(release.releasedOn);
  const row = await addRelease(tx, { ...release, releasedOn, levelKey: key });
  if (row) {
    const data = { releaseId: row.id, modelId: row.modelId, level: row.level };
    await raiseEvent(tx, { kind: "firmware.release.kept", data }, new Date());
    return row;
  }
  throw new Problem(
    "conflict",
    `There is a release ${release.level} of ${model.code} already. Edit that one.`,
  );
}

function keyOrRefuse(scheme: FirmwareScheme, level: string): bigint {
  const parsed = parseLevel(scheme, level);
  if (!parsed.ok) throw invalid("/body/level", parsed.problem);
  const key = levelKey(scheme, level);
  if (key !== undefined) return key;
  throw invalid(
    "/body/level",
    `"${level}" cannot be put in the order of the model's levels (${scheme}), so nothing could ` +
      "be due by it. Only semver and dotted levels without unusual words or huge numbers can.",
  );
}

export async function changeRelease(
  tx: FirmTransaction,
  id: string,
  version: number,
  { releasedOn, ...change }: ReleaseEdit,
) {
  const before = await findRelease(tx, id);
  if (!before) throw notFound("firmware release");
  const model = await findProductModel(tx, before.modelId);
  const { fromMin = before.fromMin, fromBelow = before.fromBelow, companions } = change;
  if (model) await requireReach(tx, model, before.level, { fromMin, fromBelow, companions });
  const day = releasedOn === undefined ? {} : { releasedOn: new Date(releasedOn) };
  const row = await editRelease(tx, id, version, { ...change, ...day });
  if (!row) throw editedMeanwhile();
  return row;
}

/** Takes effect at once, on the model's target too: nothing is due by a withdrawn release. */
export async function withdraw(
  tx: FirmTransaction,
  id: string,
  reason: string | undefined,
  now: Date,
) {
  if (!(await findRelease(tx, id))) throw notFound("firmware release");
  const { timeZone } = await readFirm(tx);
  const row = await withdrawRelease(tx, id, localDay(now.toISOString(), timeZone), reason);
  if (!row) throw new Problem("conflict", "This release was withdrawn before; it stays so.");
  const data = { releaseId: id, modelId: row.modelId, level: row.level };
  await raiseEvent(tx, { kind: "firmware.release.withdrawn", data }, now);
  return row;
}
