import { type BagFault, type FaultCode, fault } from "../domain/evidence/bag-fault.ts";
import {
  SIGNATURE,
  TIME_STAMP,
  TIME_STAMP_ROOTS,
  TIME_STAMP_SERVICE,
} from "../domain/evidence/bag-manifest.ts";
import { type BagSource, readBytes, readText } from "./bag-source.ts";
import { checkTimeStamp, type TimeStamp } from "./time-stamp.ts";

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
  const response = await readBytes(source, TIME_STAMP);
  const signature = await readBytes(source, SIGNATURE);
  const check = await checkTimeStamp(response, signature, given ?? enclosed);
  const refuse = (code: FaultCode, values: BagFault["values"]): StampReport => ({
    ...{ ...report, trust },
    faults: [fault(TIME_STAMP, code, values)],
  });
  if (!check.ok) return refuse("stamp-unfit", { why: check.problem });
  const { stamp } = check;
  if (stamp.chain?.ok === false) {
    const code = trust === "given" ? "stamp-not-of-given" : "stamp-not-of-enclosed";
    return refuse(code, { roots: TIME_STAMP_ROOTS, why: stamp.chain.problem });
  }
  return { ...report, trust, stamp };
}
