// A serial that belongs to another unit, of this job or of another on this tablet, is told at once:
// one serial cannot be live at two sites.
import { normaliseSerial } from "../../domain/identifiers/check-serial.ts";
import type { HeldPacket } from "../contract.ts";
import { packetFacts } from "./packet-facts.ts";

export interface OtherUnit {
  jobId: string;
  reference: string;
  position: number;
  modelName: string;
}

/** The other unit on this tablet that has the serial, if there is one. */
export function otherUnitWith(
  packets: readonly HeldPacket[],
  typed: string,
  own: { jobId: string; unitId: string },
): OtherUnit | undefined {
  const serial = normaliseSerial(typed);
  if (serial === "") return undefined;
  for (const { packet } of packets) {
    const unit = packetFacts(packet).units.find(
      (one) =>
        normaliseSerial(one.serial) === serial &&
        !(packet.job.id === own.jobId && one.id === own.unitId),
    );
    if (!unit) continue;
    const { id: jobId, reference } = packet.job;
    const modelName = unit.modelName ?? unit.modelCode;
    return { jobId, reference, position: unit.position, modelName };
  }
  return undefined;
}
