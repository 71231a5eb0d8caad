// What the people of a firm ask for in a day, as requests: tablets that send what they kept,
// offices that page, managers who look at the fleet, a list taken away now and then.
import { uuidv7 } from "uuidv7";
import { NO_OPERATION, operationHash } from "../src/domain/evidence/operation-chain.ts";
import { type BenchData, ITEMS } from "./data.ts";

export interface Ask {
  kind: string;
  method: string;
  path: string;
  headers: Record<string, string>;
  body?: string;
}

/** One who works: asks, waits for the reply, asks again; what was not taken is sent again. */
export type Worker = (wasTaken: boolean) => Ask;

export interface SignedInFirm extends BenchData {
  token: string;
  siteIds: string[];
}

const HTML = "text/html";

/** @param chance from 0 to 1, anew each time */
export function officeWorker(firm: SignedInFirm, chance: () => number): Worker {
  const some = (ids: readonly string[]): string => ids[Math.floor(chance() * ids.length)] ?? "";
  const pages: [weight: number, kind: string, path: () => string][] = [
    [20, "page today", () => "/today"],
    [20, "page jobs", () => "/jobs"],
    [25, "page one job", () => `/jobs/${some(firm.jobIds)}`],
    [10, "page one site", () => `/sites/${some(firm.siteIds)}`],
    [5, "page diary", () => "/diary"],
    [10, "search", () => `/search?q=${String(Math.floor(chance() * 20_000)).padStart(8, "0")}`],
    [9, "one unit", () => `/api/v1/units/${some(firm.unitIds)}`],
    [1, "jobs as CSV", () => "/api/v1/exports/jobs.csv"],
  ];
  const all = pages.reduce((sum, [weight]) => sum + weight, 0);
  return () => {
    let left = chance() * all;
    const page = pages.find(([weight]) => {
      left -= weight;
      return left < 0;
    });
    return get(page?.[1] ?? "page today", page?.[2]() ?? "/today", firm.token);
  };
}

export function managerWorker(firm: Pick<SignedInFirm, "token">, chance: () => number): Worker {
  return () =>
    chance() < 0.7
      ? get("due list, 200,000 units", "/api/v1/firmware/due?limit=50", firm.token)
      : get("due counts, 200,000 units", "/api/v1/firmware/due/counts", firm.token);
}

const get = (kind: string, path: string, token: string): Ask => ({
  ...{ kind, method: "GET", path },
  headers: {
    authorization: `Bearer ${token}`,
    accept: path.startsWith("/api/") ? "application/json, text/csv" : HTML,
  },
});

const READINGS_A_ROUND = 5;
const PACKET_EVERY = 10;

/** A tablet fetches a job, then sends readings of it, five a round, in its unbroken row. */
export function tabletWorker(firm: SignedInFirm, jobId: string): Worker {
  const deviceId = uuidv7();
  let deviceSeq = 0;
  let prevHash = NO_OPERATION;
  const keep = (): object => {
    deviceSeq += 1;
    const op = {
      ...{ opId: uuidv7(), deviceId, deviceSeq, prevHash, jobId, personId: firm.personId },
      ...{ jobVersionSeen: 1, orderSeen: 0, monotonicMs: deviceSeq * 1000, photoSha256: [] },
      wallClock: "2026-11-25T10:42:00+00:00",
      payload: {
        kind: "answer",
        answer: {
          itemId: `item_${deviceSeq % ITEMS}`,
          takenAt: "2026-11-25T10:42:00+00:00",
          instrumentId: firm.instrumentId,
          value: { number: "40", unit: "V" },
        },
      },
    };
    prevHash = operationHash(op as never);
    return op;
  };
  const packet = (): Ask => get("packet of a job", `/api/v1/tablet/packets/${jobId}`, firm.token);
  const send = (): Ask => ({
    ...{ kind: "5 readings of a tablet", method: "POST", path: "/api/v1/tablet/ops" },
    headers: { authorization: `Bearer ${firm.token}`, "content-type": "application/json" },
    body: JSON.stringify({ ops: Array.from({ length: READINGS_A_ROUND }, keep) }),
  });
  let round = 0;
  let last: Ask | undefined;
  return (wasTaken) => {
    if (last && !wasTaken) return last;
    round += 1;
    last = round % PACKET_EVERY === 1 ? packet() : send();
    return last;
  };
}
