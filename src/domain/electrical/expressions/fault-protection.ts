// What a plan may ask about disconnection, loop impedance, residual current devices,
// electrodes and bonding. Sources: the numeric functions name them.
import { maxBondOhm } from "../bonding.ts";
import { maxDisconnectionTimeS } from "../disconnection-time.ts";
import { maxElectrodeOhm } from "../earth-electrode.ts";
import { maxZsOhm } from "../loop-impedance.ts";
import { gfciMaxTripS, rcdMaxTripMs, rcdMinTripMs } from "../residual-current.ts";
import { prospectiveFaultA } from "../resistance-networks.ts";
import { type ExpressionFunction, offer } from "./expression-function.ts";

const RCD_PROBLEM = "the type is neither general nor S, or the multiple is not 1, 2 or 5";

export const FAULT_PROTECTION_FUNCTIONS: readonly ExpressionFunction[] = [
  offer(
    "max_zs(string, double): double",
    {
      description: "curve B, C or D; rating A → largest earth-loop impedance at 230 V, hot, Ω",
      problemWhen: "the curve is unknown or the rating is above 125 A",
    },
    ["B", 32],
    (curve: string, ratingA: number) => maxZsOhm(curve, ratingA),
  ),
  offer(
    "max_zs_for(string, string, double, double): double",
    {
      description:
        "rule tabulated, eighty-percent or two-thirds; curve; rating A; U0 V → largest Zs, Ω",
      problemWhen: "the rule or curve is unknown, or a number is out of range",
    },
    ["eighty-percent", "B", 32, 230],
    (rule: string, curve: string, ratingA: number, u0V: number) =>
      maxZsOhm(curve, ratingA, rule, u0V),
  ),
  offer(
    "disconnection_max_s(string, string, double): double",
    {
      description: "TN or TT; ac or dc; U0 V → longest disconnection time of a final circuit, s",
      problemWhen: "Table 41.1 gives no time for that voltage",
    },
    ["TN", "ac", 230],
    (system: string, current: string, u0V: number) => maxDisconnectionTimeS(system, current, u0V),
  ),
  offer(
    "rcd_max_trip_ms(string, double): double",
    {
      description: "type general or S; multiple of IΔn → longest trip time, ms",
      problemWhen: RCD_PROBLEM,
    },
    ["general", 1],
    rcdMaxTripMs,
  ),
  offer(
    "rcd_min_trip_ms(string, double): double",
    {
      description: "type general or S; multiple of IΔn → shortest trip time, ms; 0 for general",
      problemWhen: RCD_PROBLEM,
    },
    ["S", 1],
    rcdMinTripMs,
  ),
  offer(
    "gfci_max_trip_s(double): double",
    {
      description: "fault current mA → longest trip time of a class A GFCI, s",
      problemWhen: "the current is below 6 mA or above 264 mA",
    },
    [20],
    gfciMaxTripS,
  ),
  offer(
    "ra_max_ohm(double): double",
    {
      description: "IΔn mA → largest electrode resistance in a TT system at 50 V, Ω",
      problemWhen: "the rated residual current is outside 6 mA to 30 A",
    },
    [30],
    (residualCurrentMa: number) => maxElectrodeOhm(residualCurrentMa),
  ),
  offer(
    "bonding_max_ohm(double): double",
    {
      description: "trip current A → largest resistance of a supplementary bond at 50 V, Ω",
      problemWhen: "the current is zero, negative or above 10 000 A",
    },
    [145],
    (tripA: number) => maxBondOhm(tripA),
  ),
  offer(
    "fault_current_a(double, double): double",
    {
      description: "voltage V; loop impedance Ω → prospective fault current, A",
      problemWhen: "the voltage or the impedance is zero, negative or out of range",
    },
    [230, 0.25],
    prospectiveFaultA,
  ),
];
