import type { Cast, Say, Stage } from "./cast.ts";
import { type Caller, expectStatus, expectTrue } from "./http.ts";

/** A new release becomes the target, and the pack just installed is due for it. */
export async function firmwareDue(
  owner: Caller,
  { installer, manager }: Cast,
  { modelId }: Stage,
  unitId: string,
  say: Say,
): Promise<void> {
  const reading = { level: "2.1.3", readAt: new Date().toISOString(), source: "api" };
  const readings = `/api/v1/units/${unitId}/firmware-readings`;
  await expectStatus(201, "level", installer.post(readings, reading));
  await setTarget(owner, manager, modelId);
  const list = manager.get(`/api/v1/firmware/due?modelId=${modelId}`);
  const due = await expectStatus(200, "due list", list);
  const [site] = due.items;
  expectTrue(
    due.items.length === 1 && site.units[0].id === unitId,
    "the pack's site should be due",
  );
  const [unit] = site.units;
  const what = `${unit.serial} from ${unit.from} to ${unit.to}, ${unit.daysLeft} days left`;
  say("firmware", `${site.reference}: ${what}`);
}

async function setTarget(owner: Caller, manager: Caller, modelId: string): Promise<void> {
  const releasedOn = new Date().toISOString().slice(0, 10);
  const release = { modelId, level: "2.4.0", severity: "safety", releasedOn };
  const made = manager.post("/api/v1/firmware/releases", release);
  const { id: releaseId } = await expectStatus(201, "release", made);
  const set = await owner.put(`/api/v1/product-models/${modelId}/firmware-target`, { releaseId });
  expectTrue([200, 201].includes(set.status), `target: ${set.status} ${JSON.stringify(set.body)}`);
}
