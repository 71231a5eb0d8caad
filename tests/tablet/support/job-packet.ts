// A packet of the short plan, and operations on it, as the store hands them to the views.

import type { OpPayload, Packet } from "../../../src/features/tablet/schemas.ts";
import type { KeptOp } from "../../../src/tablet/contract.ts";
import { TABLET_PLAN, TABLET_SWITCH_MAP } from "../../support/tablet-plan.ts";

export const JOB = "019ac4a1-0000-7cc1-9d6a-0c8f6f0b0001";
export const PACKS = [
  "019ac4a1-0000-7cc1-9d6a-0c8f6f0b0011",
  "019ac4a1-0000-7cc1-9d6a-0c8f6f0b0012",
] as const;
export const PERSON = "019ac4a1-0000-7cc1-9d6a-0c8f6f0b0021";
export const GAUGE = "019ac4a1-0000-7cc1-9d6a-0c8f6f0b0031";

let versions = 0;

export function packetOf(change: Partial<Packet> = {}): Packet {
  versions += 1;
  return {
    schema: "packet/1",
    version: String(versions).padStart(64, "0"),
    generatedAt: "2026-03-02T07:00:00Z",
    ...{ ruleVersion: "test", unitSystem: "metric" },
    job: {
      ...{ id: JOB, reference: "J-2026-0142", kind: "install", title: "Install two packs" },
      ...{ state: "open", version: 3 },
    },
    site: {
      ...{ reference: "S-1", name: null, customerName: "Ida Rook", customerPhone: null },
      ...{ addressLine: "4 Kiln Lane", locality: "Thornbeck", postcode: "TB4 1AA", country: "GB" },
      ...{ latitude: 51.5, longitude: -2.5, timeZone: "Europe/London" },
      ...{ supply: "TN-C-S", region: "uk" },
    },
    visits: [],
    plan: {
      ...{ versionId: JOB, code: "SHORT", number: 1, sha256: "0".repeat(64) },
      document: TABLET_PLAN,
    },
    units: PACKS.map((id, index) => ({
      ...{ id, serial: `HN000000${index + 1}`, kind: "battery-pack", modelCode: "HERON" },
      ...{ position: index + 1, attributes: {}, modelName: "Heron 5" },
      serialRule: { mask: "HN*{7}", check: "none" },
    })),
    instruments: [gauge(GAUGE, "DG-02", "2026-12-31")],
    concessions: [],
    answers: [],
    photosHeld: [],
    messages: [],
    lastOrder: 0,
    switchMaps: { HERON: TABLET_SWITCH_MAP },
    ...change,
  };
}

export const gauge = (id: string, reference: string, due: string, more: object = {}) => ({
  ...{ id, reference, class: "depth-gauge", name: "Depth gauge" },
  calibrations: [{ on: "2025-06-01", due, passed: true }],
  ...more,
});

let ops = 0;

export function keptOp(payload: OpPayload, change: Partial<KeptOp> = {}): KeptOp {
  ops += 1;
  const opId = `019ac4a1-0000-7cc1-9d6a-${String(ops).padStart(12, "0")}`;
  return {
    op: {
      ...{ opId, deviceId: JOB, deviceSeq: ops, prevHash: "0".repeat(64), jobId: JOB },
      ...{ personId: PERSON, jobVersionSeen: 3, orderSeen: 0, monotonicMs: ops },
      ...{ wallClock: "2026-03-02T09:00:00Z", payload, photoSha256: [] },
    },
    state: "waiting",
    keptAt: "2026-03-02T09:00:00Z",
    ...change,
  };
}

/** An answer at nine o'clock and so many seconds. */
export function answerAt(
  seconds: number,
  itemId: string,
  value: object,
  { subject = "", instrumentId }: { subject?: string; instrumentId?: string } = {},
): Extract<OpPayload, { kind: "answer" }> {
  const takenAt = new Date(Date.UTC(2026, 2, 2, 9, 0, seconds)).toISOString();
  const answer = { itemId, subject, takenAt, value: value as never };
  return { kind: "answer", answer: instrumentId ? { ...answer, instrumentId } : answer };
}
