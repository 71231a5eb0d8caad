// What a plan may ask about PV strings. Sources: the numeric functions name them.
import { pvInsulationMinMohm } from "../insulation.ts";
import { coldCoefficientVocV, coldTableVocV, stringIscA, stringVocV } from "../pv-string.ts";
import { type ExpressionFunction, offer } from "./expression-function.ts";

export const PV_FUNCTIONS: readonly ExpressionFunction[] = [
  offer(
    "voc_expected_v(double, double, double, double): double",
    {
      description:
        "module Voc V; coefficient %/K; cell temperature °C; modules → string voltage expected, V",
      problemWhen: "a number is out of range or the number of modules is not whole",
    },
    [49.5, -0.27, 45, 12],
    stringVocV,
  ),
  offer(
    "isc_expected_a(double, double, double, double): double",
    {
      description:
        "module Isc A; coefficient %/K; irradiance W/m²; cell temperature °C → current expected, A",
      problemWhen: "a number is out of range",
    },
    [13.5, 0.05, 800, 45],
    (moduleIscA: number, alphaPercentPerK: number, irradianceWm2: number, cellC: number) =>
      stringIscA(moduleIscA, alphaPercentPerK, irradianceWm2, cellC),
  ),
  offer(
    "voc_cold_v(double, double, double, double): double",
    {
      description:
        "module Voc V; coefficient %/K; lowest °C; modules → cold voltage by coefficient, V",
      problemWhen: "the lowest temperature is above 25 °C or the coefficient is positive",
    },
    [49.5, -0.27, -10, 11],
    coldCoefficientVocV,
  ),
  offer(
    "voc_cold_table_v(double, double, double): double",
    {
      description: "module Voc V; lowest °C; modules → cold voltage by NEC Table 690.7(A), V",
      problemWhen: "the lowest temperature is above 24 °C or below −40 °C",
    },
    [49.5, -10, 10],
    coldTableVocV,
  ),
  offer(
    "pv_insulation_min_mohm(double): double",
    {
      description: "string Voc at standard conditions V → least insulation of the array, MΩ",
      problemWhen: "1.25 times the voltage is above 1500 V",
    },
    [594],
    pvInsulationMinMohm,
  ),
];
