// One list of everything that can be worked out: the interface, its documentation and the
// tests all read it, so a calculation cannot exist without being offered and tried.
import type { Calculation } from "./calculation.ts";
import { adiabaticArea } from "./calculations/adiabatic-area.ts";
import { ampacityIec } from "./calculations/ampacity-iec.ts";
import { ampacityNec } from "./calculations/ampacity-nec.ts";
import { canTermination } from "./calculations/can-termination.ts";
import { closedContactDrop } from "./calculations/closed-contact-drop.ts";
import { conductorResistance } from "./calculations/conductor-resistance.ts";
import { dcPolarity } from "./calculations/dc-polarity.ts";
import { earthBond } from "./calculations/earth-bond.ts";
import { gfciTripCurrent } from "./calculations/gfci-trip-current.ts";
import { gfciTripTime } from "./calculations/gfci-trip-time.ts";
import { insulationInParallel } from "./calculations/insulation-in-parallel.ts";
import { insulationResistance } from "./calculations/insulation-resistance.ts";
import { mainBonding } from "./calculations/main-bonding.ts";
import { maxDisconnectionTime } from "./calculations/max-disconnection-time.ts";
import { maxEarthLoopImpedance } from "./calculations/max-earth-loop-impedance.ts";
import { necConductorResistance } from "./calculations/nec-conductor-resistance.ts";
import { overloadCoordination } from "./calculations/overload-coordination.ts";
import { packEnergy } from "./calculations/pack-energy.ts";
import { parallelPackDifference } from "./calculations/parallel-pack-difference.ts";
import { prospectiveFaultCurrent } from "./calculations/prospective-fault-current.ts";
import { pvArrayInsulation } from "./calculations/pv-array-insulation.ts";
import { pvCircuitCurrent } from "./calculations/pv-circuit-current.ts";
import { pvColdVoltage } from "./calculations/pv-cold-voltage.ts";
import { pvIscExpected } from "./calculations/pv-isc-expected.ts";
import { pvMaxSeriesModules } from "./calculations/pv-max-series-modules.ts";
import { pvStringComparison } from "./calculations/pv-string-comparison.ts";
import { pvVocExpected } from "./calculations/pv-voc-expected.ts";
import { r1PlusR2 } from "./calculations/r1-plus-r2.ts";
import { rcdNoTrip } from "./calculations/rcd-no-trip.ts";
import { rcdTripCurrent } from "./calculations/rcd-trip-current.ts";
import { rcdTripTime } from "./calculations/rcd-trip-time.ts";
import { ringFinalContinuity } from "./calculations/ring-final-continuity.ts";
import { seriesOpenCircuitVoltage } from "./calculations/series-open-circuit-voltage.ts";
import { singleRodResistance } from "./calculations/single-rod-resistance.ts";
import { smallConductorProtection } from "./calculations/small-conductor-protection.ts";
import { supplementaryBonding } from "./calculations/supplementary-bonding.ts";
import { ttElectrodeResistance } from "./calculations/tt-electrode-resistance.ts";
import { voltageDropDc } from "./calculations/voltage-drop-dc.ts";
import { voltageDropIec } from "./calculations/voltage-drop-iec.ts";
import { voltageDropKMethod } from "./calculations/voltage-drop-k-method.ts";
import { voltageDropMillivolt } from "./calculations/voltage-drop-millivolt.ts";
import { voltageDropNec } from "./calculations/voltage-drop-nec.ts";
import { wireGaugeArea } from "./calculations/wire-gauge-area.ts";

/** Every calculation, grouped as an installer meets them; `name` is unique. */
// biome-ignore lint/suspicious/noExplicitAny: each entry has its own input type.
export const CALCULATIONS: readonly Calculation<any>[] = [
  maxDisconnectionTime,
  maxEarthLoopImpedance,
  ttElectrodeResistance,
  singleRodResistance,
  prospectiveFaultCurrent,
  rcdTripTime,
  rcdNoTrip,
  rcdTripCurrent,
  gfciTripTime,
  gfciTripCurrent,
  insulationResistance,
  pvArrayInsulation,
  insulationInParallel,
  r1PlusR2,
  ringFinalContinuity,
  mainBonding,
  earthBond,
  supplementaryBonding,
  conductorResistance,
  necConductorResistance,
  wireGaugeArea,
  voltageDropIec,
  voltageDropMillivolt,
  voltageDropDc,
  voltageDropNec,
  voltageDropKMethod,
  ampacityIec,
  ampacityNec,
  smallConductorProtection,
  overloadCoordination,
  adiabaticArea,
  pvVocExpected,
  pvIscExpected,
  pvStringComparison,
  pvColdVoltage,
  pvMaxSeriesModules,
  pvCircuitCurrent,
  seriesOpenCircuitVoltage,
  packEnergy,
  dcPolarity,
  parallelPackDifference,
  closedContactDrop,
  canTermination,
];
