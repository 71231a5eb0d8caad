// A few installed units with firmware levels, for the due list and its notice.

import { uuidv7 } from "uuidv7";
import { expect } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { levelKey } from "../../src/domain/firmware/level-key.ts";
import type { FirmwareScheme } from "../../src/domain/firmware/levels.ts";
import type { TestService } from "./app.ts";
import { addJobRows } from "./rows.ts";

export interface Fleet {
  modelId: string;
  siteIds: string[];
  unitIds: string[];
}

/** One site for each level, with one unit at it; null is a level nobody has read. */
export async function addFleet(
  service: TestService,
  scheme: FirmwareScheme,
  levels: (string | null)[],
): Promise<Fleet> {
  const { firmId } = service.firm;
  const modelId = uuidv7();
  const siteIds: string[] = [];
  for (const _level of levels) {
    siteIds.push((await addJobRows(service, { schema: "plan/1", stages: [] })).siteId);
  }
  const unitIds = levels.map(() => uuidv7());
  await inFirm(service.db, firmId, async (tx) => {
    await tx.productModel.create({ data: modelRow(firmId, modelId, scheme) });
    await tx.unit.createMany({
      data: levels.map((level, index) => ({
        firmId,
        id: unitIds[index]!,
        modelId,
        serial: unitIds[index]!.slice(-9).toUpperCase(),
        state: "installed",
        siteId: siteIds[index]!,
        firmwareLevel: level,
        firmwareKey: level === null ? null : (levelKey(scheme, level) ?? null),
        firmwareReadAt: level === null ? null : new Date("2026-01-01"),
      })),
    });
  });
  return { modelId, siteIds, unitIds };
}

const modelRow = (firmId: string, id: string, firmwareScheme: string) => ({
  firmId,
  id,
  code: `M-${id.slice(-6)}`,
  name: "Kestrel 5",
  maker: "Harrowmere",
  kind: "battery-pack",
  attributes: {},
  serialMask: "*{9}",
  serialCheck: "none",
  firmwareScheme,
});

const managerOf = (service: TestService) => service.as(service.firm.people.manager);

export interface ReleaseWish {
  modelId: string;
  level: string;
  severity?: "safety" | "important" | "routine";
  releasedOn?: string;
}

export const postRelease = (service: TestService, release: ReleaseWish) =>
  managerOf(service)
    .post("/api/v1/firmware/releases")
    .send({ severity: "important", releasedOn: "2026-11-01", ...release });

/** A new release that becomes the model's first target. */
export async function postTarget(service: TestService, release: ReleaseWish, dueOn?: string) {
  const made = await postRelease(service, release);
  expect(made.status, JSON.stringify(made.body)).toBe(201);
  const target = await managerOf(service)
    .put(`/api/v1/product-models/${release.modelId}/firmware-target`)
    .send({ releaseId: made.body.id, ...(dueOn ? { dueOn } : {}) });
  expect(target.status, JSON.stringify(target.body)).toBe(201);
  return target;
}
