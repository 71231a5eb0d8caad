// What a packet says, in the shapes in which the domain judges. Compiling a plan is the dearest
// step, so it is done once a plan version and not once a look.

import type { Answer } from "../../domain/acceptance/answer.ts";
import type { SwitchMap } from "../../domain/bank/switch-map.ts";
import { type CompiledPlan, compilePlan } from "../../domain/plan/compile.ts";
import type { ConcessionFacts, InstrumentFacts, UnitFacts } from "../../domain/plan/context.ts";
import type { Plan } from "../../domain/plan/schema.ts";
import type { Packet } from "../../features/tablet/schemas.ts";

export interface TabletUnit extends UnitFacts {
  modelName?: string;
}

export interface TabletInstrument extends InstrumentFacts {
  name?: string;
  /** Whether a visit of the job has it. */
  booked?: boolean;
}

export interface PacketFacts {
  plan: CompiledPlan;
  units: readonly TabletUnit[];
  instruments: readonly TabletInstrument[];
  concessions: readonly ConcessionFacts[];
  answers: readonly Answer[];
  /** By model code. */
  switchMaps: Readonly<Record<string, SwitchMap>>;
}

const PLANS_MOST = 8;
const plans = new Map<string, CompiledPlan>();
const PACKETS_MOST = 40;
const read = new Map<string, PacketFacts>();

/** The facts of a packet; the same packet is read once, however often it is asked for. */
export function packetFacts(packet: Packet): PacketFacts {
  const known = read.get(packet.version);
  if (known) return known;
  const facts: PacketFacts = {
    plan: planOf(packet),
    units: packet.units as unknown as TabletUnit[],
    instruments: packet.instruments as unknown as TabletInstrument[],
    concessions: packet.concessions as unknown as ConcessionFacts[],
    answers: packet.answers as unknown as Answer[],
    switchMaps: packet.switchMaps as Record<string, SwitchMap>,
  };
  return remember(read, packet.version, facts, PACKETS_MOST);
}

function planOf({ plan }: Packet): CompiledPlan {
  const known = plans.get(plan.versionId);
  if (known) return known;
  const document = { attributes: {}, ...plan.document } as unknown as Plan;
  return remember(plans, plan.versionId, compilePlan(document), PLANS_MOST);
}

function remember<Value>(
  store: Map<string, Value>,
  key: string,
  value: Value,
  most: number,
): Value {
  const oldest = store.size >= most ? store.keys().next().value : undefined;
  if (oldest !== undefined) store.delete(oldest);
  store.set(key, value);
  return value;
}
