// What a plan may ask about insulation, conductors, voltage drop and capacity. Sources:
// the numeric functions name them.
import { iecAmpacityA, necAmpacityA } from "../ampacity.ts";
import { conductorResistanceOhm, necResistanceOhm } from "../conductor-resistance.ts";
import { adiabaticMinMm2 } from "../fault-withstand.ts";
import { insulationMinMohm, insulationTestV } from "../insulation.ts";
import { parallelOhm, ringFinalOhm } from "../resistance-networks.ts";
import { annexGDropV, dcDropV } from "../voltage-drop.ts";
import { type ExpressionFunction, offer } from "./expression-function.ts";

const INSULATION_PROBLEM =
  "the kind is neither selv-pelv nor ordinary, or the voltage does not fit it";
const CONDUCTOR_PROBLEM = "the size, form, insulation or temperature is not one the table holds";

export const CIRCUIT_FUNCTIONS: readonly ExpressionFunction[] = [
  offer(
    "insulation_min_mohm(string, double): double",
    {
      description: "selv-pelv or ordinary; nominal voltage V AC → least insulation resistance, MΩ",
      problemWhen: INSULATION_PROBLEM,
    },
    ["ordinary", 230],
    (circuit: string, nominalV: number) => insulationMinMohm(circuit, nominalV),
  ),
  offer(
    "insulation_test_v(string, double): double",
    {
      description: "selv-pelv or ordinary; nominal voltage V AC → test voltage, V DC",
      problemWhen: INSULATION_PROBLEM,
    },
    ["ordinary", 230],
    (circuit: string, nominalV: number) => insulationTestV(circuit, nominalV),
  ),
  offer(
    "parallel_ohm(list<double>): double",
    {
      description: "resistances, all Ω or all MΩ → their resistance in parallel, in that unit",
      problemWhen: "the list is empty or a resistance is negative",
    },
    [[2, 5, 10]],
    parallelOhm,
  ),
  offer(
    "ring_final_ohm(double, double): double",
    {
      description: "r1 and r2 of the ring end to end, Ω → R1+R2 at each socket, Ω",
      problemWhen: "a resistance is negative or out of range",
    },
    [0.6, 1],
    ringFinalOhm,
  ),
  offer(
    "conductor_resistance_ohm(double, double, double, double): double",
    {
      description: "IEC class 2 or 5; area mm²; length m; temperature °C → largest resistance, Ω",
      problemWhen: CONDUCTOR_PROBLEM,
    },
    [2, 2.5, 20, 20],
    (conductorClass: number, areaMm2: number, lengthM: number, temperatureC: number) =>
      conductorResistanceOhm(conductorClass, areaMm2, lengthM, temperatureC),
  ),
  offer(
    "nec_resistance_ohm(string, string, double, double): double",
    {
      description: "AWG; solid or stranded; length ft; temperature °C → resistance, Ω",
      problemWhen: CONDUCTOR_PROBLEM,
    },
    ["12", "solid", 1000, 20],
    necResistanceOhm,
  ),
  offer(
    "voltage_drop_v(double, double, double, double): double",
    {
      description:
        "area mm²; length m one way; current A; cos φ → drop of a single-phase copper run, V",
      problemWhen: "a number is zero, negative or out of range, or cos φ is above 1",
    },
    [6, 20, 32, 1],
    (areaMm2: number, lengthM: number, currentA: number, powerFactor: number) =>
      annexGDropV({ areaMm2, lengthM, currentA, powerFactor }),
  ),
  offer(
    "voltage_drop_dc_v(double, double, double, double, double): double",
    {
      description:
        "IEC class 2 or 5; area mm²; length m one way; current A; temperature °C → drop, V",
      problemWhen: CONDUCTOR_PROBLEM,
    },
    [5, 4, 30, 10, 20],
    dcDropV,
  ),
  offer(
    "ampacity_iec_a(string, double, double, double, double): double",
    {
      description:
        "pvc or xlpe; loaded conductors 2 or 3; area mm²; air °C; circuits bunched → capacity, A",
      problemWhen: CONDUCTOR_PROBLEM,
    },
    ["pvc", 2, 6, 35, 2],
    iecAmpacityA,
  ),
  offer(
    "ampacity_nec_a(string, double, double): double",
    {
      description: "AWG copper; air °C; current-carrying conductors → ampacity, 75 °C column, A",
      problemWhen: CONDUCTOR_PROBLEM,
    },
    ["12", 40, 3],
    necAmpacityA,
  ),
  offer(
    "adiabatic_min_mm2(double, double, string, string, string): double",
    {
      description:
        "fault A; duration s; copper or aluminium; pvc or xlpe; core-in-cable or separate → mm²",
      problemWhen: "the fault lasts above 5 s, or a word is unknown",
    },
    [1000, 0.1, "copper", "pvc", "core-in-cable"],
    adiabaticMinMm2,
  ),
];
