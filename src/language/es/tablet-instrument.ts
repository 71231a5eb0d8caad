import type { Translation } from "../translation.ts";

type Original = typeof import("../en/tablet-instrument.ts").tabletInstrument;

export const tabletInstrument: Translation<Original> = {
  "tabletInstrument.none":
    "En esta tableta no consta ningún instrumento de esta clase: {what}. La lectura se puede " +
    "guardar, pero no cuenta hasta que la oficina indique uno.",
  "tabletInstrument.which": "¿Qué instrumento ({what})?",
  "tabletInstrument.change": "Cambiar",
  "tabletInstrument.changeWhat": "Cambiar de instrumento ({what})",
  "tabletInstrument.until": "calibración vigente hasta el {day}",
  "tabletInstrument.inCalibration": "calibración vigente",
  "tabletInstrument.class.multimeter": "multímetro",
  "tabletInstrument.class.insulation-tester": "medidor de aislamiento",
  "tabletInstrument.class.loop-tester": "medidor de bucle",
  "tabletInstrument.class.rcd-tester": "comprobador de diferenciales",
  "tabletInstrument.class.low-ohm-meter": "medidor de baja resistencia",
  "tabletInstrument.class.earth-tester": "telurómetro",
  "tabletInstrument.class.installation-tester": "comprobador de instalaciones",
  "tabletInstrument.class.clamp-meter": "pinza amperimétrica",
  "tabletInstrument.class.voltage-tester": "detector de tensión",
  "tabletInstrument.class.irradiance-meter": "medidor de irradiancia",
  "tabletInstrument.class.torque-wrench": "llave dinamométrica",
  "tabletInstrument.class.torque-screwdriver": "destornillador dinamométrico",
  "tabletInstrument.class.thermometer": "termómetro",
  "tabletInstrument.class.thermal-camera": "cámara termográfica",
  "tabletInstrument.class.tape": "flexómetro",
  "tabletInstrument.class.depth-gauge": "calibre de profundidad",
  "tabletInstrument.class.feeler-gauge": "galgas de espesores",
  "tabletInstrument.class.level": "nivel",
  "tabletInstrument.class.stopwatch": "cronómetro",
  "tabletInstrument.class.other": "instrumento",
};
