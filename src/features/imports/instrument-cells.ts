// The cells of an instrument's row, and how they make up what the interface takes.
import type { ImportField, Values } from "./kind.ts";

export const INSTRUMENT_FIELDS: readonly ImportField[] = [
  {
    ...{ name: "reference", cell: "text", requirement: "key" },
    words: ["instrument", "asset", "asset number", "ref", "referencia", "inventario", "código"],
  },
  {
    ...{ name: "name", cell: "text", requirement: "new" },
    words: ["description", "instrument name", "nombre", "descripción"],
  },
  {
    ...{ name: "instrumentClass", cell: "text", requirement: "new" },
    words: ["class", "type", "kind", "clase", "tipo"],
  },
  {
    ...{ name: "serial", cell: "text", requirement: "new" },
    words: ["serial number", "serial no", "sn", "número de serie", "nº de serie"],
  },
  {
    ...{ name: "intervalMonths", cell: "number" },
    words: [
      "interval",
      "calibration interval",
      "interval months",
      "intervalo",
      "intervalo en meses",
    ],
  },
  { ...{ name: "intervalCycles", cell: "number" }, words: ["cycles", "ciclos"] },
  { ...{ name: "accuracyPercentOfReading", cell: "number" }, words: ["% of reading", "% lectura"] },
  { ...{ name: "accuracyPercentOfRange", cell: "number" }, words: ["% of range", "% rango"] },
  { ...{ name: "accuracyPercentOfSetting", cell: "number" }, words: ["% of setting", "% ajuste"] },
  { ...{ name: "accuracyDigits", cell: "number" }, words: ["digits", "dígitos"] },
  { ...{ name: "rangeMax", cell: "number" }, words: ["range", "rango"] },
  { ...{ name: "rangeUnit", cell: "text" }, words: ["unit of range", "unidad del rango"] },
  { ...{ name: "resolutionStep", cell: "number" }, words: ["resolution", "resolución"] },
  {
    ...{ name: "resolutionUnit", cell: "text" },
    words: ["unit of resolution", "unidad de la resolución"],
  },
  { ...{ name: "torqueToolType", cell: "text" }, words: ["iso 6789 type", "tipo iso 6789"] },
  { ...{ name: "torqueToolClass", cell: "text" }, words: ["iso 6789 class", "clase iso 6789"] },
  {
    ...{ name: "calibratedOn", cell: "text" },
    words: [
      "calibrated",
      "calibration date",
      "last calibration",
      "calibrado",
      "calibración",
    ].concat(["fecha de calibración"]),
  },
  {
    ...{ name: "calibrationDueOn", cell: "text" },
    words: ["due", "due on", "calibration due", "next calibration", "próxima calibración", "vence"],
  },
  {
    ...{ name: "certificate", cell: "text" },
    words: ["certificate number", "certificado", "número de certificado"],
  },
  { ...{ name: "calibrationPassed", cell: "yes-no" }, words: ["passed", "superada", "apta"] },
];

/** A part that no cell speaks of is left out; one that some cell speaks of is given whole. */
export function nested(values: Values): Values {
  const { reference, name, instrumentClass, serial, intervalMonths, intervalCycles } = values;
  return without({
    ...{ reference, name, instrumentClass, serial, intervalMonths, intervalCycles },
    accuracy: group({
      percentOfReading: values.accuracyPercentOfReading,
      percentOfRange: values.accuracyPercentOfRange,
      percentOfSetting: values.accuracyPercentOfSetting,
      digits: values.accuracyDigits,
    }),
    rangeMax: group({ value: values.rangeMax, unit: values.rangeUnit }),
    resolution: group({ step: values.resolutionStep, unit: values.resolutionUnit }),
    torqueTool: group({ type: values.torqueToolType, class: values.torqueToolClass }),
    calibration: calibrationOf(values),
  });
}

function calibrationOf(values: Values): Values | undefined {
  const { calibratedOn, calibrationDueOn: dueOn, certificate, calibrationPassed } = values;
  const told = group({ calibratedOn, dueOn, certificate });
  return told && { passed: calibrationPassed ?? true, ...told };
}

function group(parts: Values): Values | undefined {
  const told = without(parts);
  return Object.keys(told).length === 0 ? undefined : told;
}

const without = (parts: Values): Values =>
  Object.fromEntries(Object.entries(parts).filter(([, value]) => value !== undefined));
