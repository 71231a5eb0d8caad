// The printed tables follow from formulas; re-deriving each row catches a slip in copying
// that a second copy of the same table would not.
import { describe, expect, it } from "vitest";
import { AMPACITY_IEC } from "../../../src/domain/electrical/tables/ampacity-iec.ts";
import {
  COPPER_RESISTANCE,
  TEMPERATURE_METHODS,
} from "../../../src/domain/electrical/tables/conductor-resistance-iec.ts";
import {
  NEC_AMPACITY,
  NEC_CONDUCTORS,
} from "../../../src/domain/electrical/tables/conductors-nec.ts";
import {
  AMBIENT_IEC,
  AMBIENT_NEC,
  GROUPING_IEC,
  GROUPING_NEC,
} from "../../../src/domain/electrical/tables/derating-factors.ts";
import { WITHSTAND_K } from "../../../src/domain/electrical/tables/fault-withstand.ts";
import { COLD_FACTOR_TABLE } from "../../../src/domain/electrical/tables/pv-rules.ts";
import { MILLIVOLTS_BS } from "../../../src/domain/electrical/tables/voltage-drop-data.ts";
import { gaugeAreaMm2 } from "../../../src/domain/electrical/wire-gauge.ts";
import { evaluate } from "./arithmetic.ts";
import { numberOf } from "./outcomes.ts";

// Zero-resistance temperature and constant of the formula of IEC 60364-5-54 Annex A.
const METALS = { copper: [226, 234.5], aluminium: [148, 228] } as const;

describe("k follows from K·√ln((β + θf)/(β + θi)) (IEC 60364-5-54 Annex A, from memory)", () => {
  it.each(WITHSTAND_K.rows)("for $material, $insulation, $role: $k", (row) => {
    const [constant, zero] = METALS[row.material];
    const k = constant * Math.sqrt(Math.log((zero + row.finalC) / (zero + row.initialC)));
    expect(Math.abs(k - row.k)).toBeLessThanOrEqual(0.6);
  });
});

describe("ambient factors follow from √((θmax − t)/(θmax − 30)) (computed)", () => {
  const tables = [AMBIENT_IEC.pvc, AMBIENT_IEC.xlpe, AMBIENT_NEC];
  const rows = tables.flatMap((table) => table.rows.map((row) => ({ table, ...row })));

  it.each(rows)("$table.id at $upToC °C: $factor", ({ table, upToC, factor }) => {
    const { conductorC, referenceC } = table;
    const derived = Math.sqrt((conductorC - upToC) / (conductorC - referenceC));
    expect(Math.abs(derived - factor)).toBeLessThanOrEqual(0.0051);
  });
});

/** Largest relative distance of points from the power law that fits them best. */
function powerLawError(points: readonly (readonly [number, number])[]): number {
  const logs = points.map(([x, y]) => [Math.log(x), Math.log(y)] as const);
  const meanX = logs.reduce((sum, [x]) => sum + x, 0) / logs.length;
  const meanY = logs.reduce((sum, [, y]) => sum + y, 0) / logs.length;
  const covariance = logs.reduce((sum, [x, y]) => sum + (x - meanX) * (y - meanY), 0);
  const slope = covariance / logs.reduce((sum, [x]) => sum + (x - meanX) ** 2, 0);
  return Math.max(...logs.map(([x, y]) => Math.abs(Math.expm1(y - meanY - slope * (x - meanX)))));
}

describe("capacities follow a power of the area (IEC 60364-5-52 Annex D form, from memory)", () => {
  it.each(AMPACITY_IEC)("within 3 % in $id", (table) => {
    const points = table.rows.map((row) => [row.areaMm2, row.ampacityA] as const);
    expect(powerLawError(points)).toBeLessThan(0.03);
  });

  it("within 7 % in NEC Table 310.16, which is rounded to 5 A", () => {
    const points = NEC_AMPACITY.rows.map((row) => {
      return [numberOf(gaugeAreaMm2(row.awg)), row.ampacityA] as const;
    });
    expect(powerLawError(points)).toBeLessThan(0.07);
  });

  it("and a single slipped digit would show", () => {
    const rows = AMPACITY_IEC[0]?.rows ?? [];
    const slipped = rows.map((row) => {
      return [row.areaMm2, row.ampacityA === 63 ? 68 : row.ampacityA] as const;
    });
    expect(powerLawError(slipped)).toBeGreaterThan(0.03);
  });
});

describe("resistances follow from the resistivity of copper (IEC 60028, 17.241 nΩ·m)", () => {
  it.each(COPPER_RESISTANCE.rows)("IEC 60228, $areaMm2 mm²", (row) => {
    for (const perKm of [row.class2OhmPerKm, row.class5OhmPerKm]) {
      expect(perKm * row.areaMm2).toBeGreaterThan(17.241);
      expect(perKm * row.areaMm2).toBeLessThan(20);
    }
  });

  it.each(NEC_CONDUCTORS.rows)("NEC Chapter 9 Table 8, $awg AWG", (row) => {
    const areaMm2 = numberOf(gaugeAreaMm2(row.awg));
    const hot = 17.241 * (1 + 0.00393 * 55);
    const perKft = (hot / areaMm2) * 0.3048;
    if (row.solidOhmPerKft !== null) expect(row.solidOhmPerKft / perKft).toBeCloseTo(1, 2);
    const strandingAllowance = row.strandedOhmPerKft / perKft;
    expect(strandingAllowance).toBeGreaterThan(1.01);
    expect(strandingAllowance).toBeLessThan(1.035);
  });

  it.each(NEC_CONDUCTORS.rows)("circular mils of $awg AWG are its diameter squared", (row) => {
    const mils2 = (numberOf(gaugeAreaMm2(row.awg)) / (Math.PI / 4)) * (1000 / 25.4) ** 2;
    expect(row.circularMils / mils2).toBeCloseTo(1, 2);
  });

  it.each(MILLIVOLTS_BS.rows)("mV/A/m of $areaMm2 mm² is twice the resistance at 70 °C", (row) => {
    const copper = COPPER_RESISTANCE.rows.find((one) => one.areaMm2 === row.areaMm2);
    const expected = 2 * (copper?.class2OhmPerKm ?? Number.NaN) * 1.2;
    expect(Math.abs(row.millivoltPerAmpMetre / expected - 1)).toBeLessThan(0.02);
  });
});

describe("temperature methods", () => {
  it.each(TEMPERATURE_METHODS.rows)("print the coefficient that $method uses", (row) => {
    const printed = /^R20 × \(1 \+ a × \(t − 20\)\), a = (.+)$/.exec(row.formula)?.[1] ?? "";
    expect(evaluate(printed)).toBeCloseTo(row.perK, 12);
  });
});

describe("factor tables run one way", () => {
  it.each([
    ["grouping (IEC)", GROUPING_IEC.rows.map((row) => row.factor)],
    ["grouping (NEC)", GROUPING_NEC.rows.map((row) => row.factor)],
    ["cold factors, reversed", COLD_FACTOR_TABLE.rows.map((row) => row.factor).reverse()],
  ])("%s: strictly falling", (_name, factors) => {
    for (const [index, factor] of factors.entries()) {
      if (index > 0) expect(factor).toBeLessThan(factors[index - 1]!);
    }
  });
});
