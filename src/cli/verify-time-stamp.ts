import { buffer } from "node:stream/consumers";
import {
  SIGNATURE,
  TIME_STAMP,
  TIME_STAMP_ROOTS,
  TIME_STAMP_SERVICE,
} from "../domain/evidence/bag-manifest.ts";
import type { BagFault } from "../domain/evidence/recheck-verdicts.ts";
import { checkTimeStamp, type TimeStamp } from "../verify/time-stamp.ts";
import { type BagSource, readText } from "./verify-source.ts";

export interface StampReport {
  faults: BagFault[];
  /** Left out where there is none, or none that holds. */
  stamp?: TimeStamp;
  /** What its certificate leads to: roots that were given, those in the bag, or none at hand. */
  trust: "given" | "enclosed" | "unknown";
  /** The service that was to stamp, by the bag's own word. */
  askedOf?: string;
}

/** Reads the time stamp over a bag's signature. */
export async function readStamp(source: BagSource, given?: string): Promise<StampReport> {
  const info = await readText(source, "bag-info.txt");
  const askedOf = new RegExp(`^${TIME_STAMP_SERVICE}: (.*)$`, "m").exec(info)?.[1];
  const report = { faults: [], ...(askedOf === undefined ? {} : { askedOf }) };
  if (!source.names.includes(TIME_STAMP)) return { ...report, trust: "unknown" };
  const hasRoots = source.names.includes(TIME_STAMP_ROOTS);
  const enclosed = hasRoots ? await readText(source, TIME_STAMP_ROOTS) : undefined;
  const trust = given !== undefined ? "given" : enclosed !== undefined ? "enclosed" : "unknown";
  const response = await buffer(source.open(TIME_STAMP));
  const signature = await buffer(source.open(SIGNATURE));
  const check = await checkTimeStamp(response, signature, given ?? enclosed);
  const refuse = (problem: string): StampReport => ({
    ...{ ...report, trust },
    faults: [{ file: TIME_STAMP, problem }],
  });
  if (!check.ok) return refuse(check.problem);
  const { stamp } = check;
  if (stamp.chain?.ok === false) {
    const roots = trust === "given" ? "the certificates given" : TIME_STAMP_ROOTS;
    return refuse(`Its certificate does not lead to ${roots}: ${stamp.chain.problem}`);
  }
  return { ...report, trust, stamp };
}
