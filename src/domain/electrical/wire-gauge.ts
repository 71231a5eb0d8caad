// American gauges are a geometric series of diameters, so area follows from the number
// alone and needs no table: ASTM B258.
import { type Figure, figure, refuse } from "./calculation.ts";
import { WIRE_GAUGE } from "./tables/workshop-rules.ts";

/** Gauge number used in the formula: 0 for 1/0, −1 for 2/0, −3 for 4/0. */
export function gaugeNumber(awg: string): Figure {
  const aught = /^([1-4])\/0$/.exec(awg);
  if (aught) return figure(1 - Number(aught[1]));
  const plain = /^[1-9][0-9]?$/.exec(awg) ? Number(awg) : Number.NaN;
  if (plain <= WIRE_GAUGE.thinnest) return figure(plain);
  const problem =
    `The gauge "${awg}" is not one of 4/0, 3/0, 2/0, 1/0, 1 to ${WIRE_GAUGE.thinnest}; larger ` +
    "conductors are given by area.";
  return refuse("bad-input", problem);
}

/** Diameter of a solid wire of that gauge number, mm: 0.127 · 92^((36 − n)/39). */
export function gaugeDiameterMm(gauge: number): number {
  const { gauge36Mm, ratio, gaugesPerRatio } = WIRE_GAUGE;
  return gauge36Mm * ratio ** ((36 - gauge) / gaugesPerRatio);
}

/** Area of a solid wire of a gauge such as "12" or "2/0", mm². */
export function gaugeAreaMm2(awg: string): Figure {
  const gauge = gaugeNumber(awg);
  if (!gauge.ok) return gauge;
  return figure((Math.PI / 4) * gaugeDiameterMm(gauge.value) ** 2);
}
