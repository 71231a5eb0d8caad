import type { Translation } from "../translation.ts";

export const audits: Translation<typeof import("../en/audits.ts").audits> = {
  "audits.title": "Muestras de auditoría",
  "audits.note":
    "Trabajos cerrados de un período, sacados al azar para una auditoría. El plan es de muestreo " +
    "simple, inspección normal, nivel general II según ISO 2859-1, de memoria: compárelo con la " +
    "norma donde un contrato lo pida. La misma dirección saca la misma muestra.",
  "audits.from": "Cerrados desde",
  "audits.to": "Cerrados hasta",
  "audits.limit": "Límite de calidad aceptable (AQL)",
  "audits.seed": "Semilla (vacía: una nueva)",
  "audits.draw": "Sacar la muestra",
  "audits.plan": "Plan y resultado",
  "audits.planIs":
    "Lote de {lot}, letra {letter}: mire {size}; acepte con {accept} o menos no conformes, " +
    "rechace con {reject} o más.",
  "audits.accepted": "aceptado según los hallazgos hasta ahora",
  "audits.rejected": "rechazado",
  "audits.found": "Trabajos de la muestra con un hallazgo: {found}",
  "audits.again":
    "Semilla {seed}. Para sacarla otra vez, tome el SHA-256 de «semilla:referencia» de cada " +
    "trabajo del lote y ordene: los más bajos son la muestra, en este orden.",
  "audits.chances": "Lo que el plan ve: la probabilidad de que se acepte el lote",
  "audits.share": "No conformes",
  "audits.count": "Trabajos",
  "audits.chance": "Probabilidad de aceptación",
  "audits.closed": "Cerrado",
  "audits.finding": "Hallazgo",
  "audits.findingOn": "Hallazgo de auditoría en {job}",
  "audits.open": "Abrir una no conformidad",
  "audits.openOn": "Abrir una no conformidad en {job}",
  "audits.seeFinding": "Ver el hallazgo",
  "audits.tooMany": "Se cerraron más de 10 000 trabajos: tome un período más corto.",
  "audits.none": "Ningún trabajo cerrado se cerró en ese tiempo.",
  "audits.keep": "Guardar esta muestra",
  "audits.keepNote":
    "Guardada, queda como se saca ahora, se cierre o reabra lo que sea después, y sus " +
    "trabajos se pueden marcar.",
  "audits.kept": "Muestras guardadas",
  "audits.sample": "Muestra",
  "audits.period": "Período",
  "audits.state": "Estado",
  "audits.looked": "Mirados",
  "audits.withFinding": "Con hallazgo",
  "audits.keptHead": "Guardada",
  "audits.noneKept": "Todavía no hay ninguna muestra guardada.",
  "audits.noneKeptWayOut": "Saque una arriba y guárdela.",
  "audits.state.open": "en curso",
  "audits.state.accepted": "aceptada",
  "audits.state.rejected": "rechazada",
  "audits.all": "Todas las muestras",
  "audits.one": "Muestra de auditoría {sample}",
  "audits.progress": "{looked} de {size} trabajos mirados, {found} con un hallazgo.",
  "audits.howDrawn": "Cómo se sacó",
  "audits.keptBy":
    "Trabajos cerrados del {from} al {to}, límite de calidad aceptable {limit} %. Guardada por " +
    "{who}, {day}.",
  "audits.within": "Sacada de lo que el auditor podía ver entonces, no de toda la empresa.",
  "audits.repeat":
    "Semilla {seed}. Quien tiene el lote saca los mismos trabajos en el mismo orden:",
  "audits.lot": "Llevarse el lote",
  "audits.commands": "Órdenes que vuelven a sacar la muestra",
  "audits.seen": "mirado",
  "audits.unseen": "aún no mirado",
  "audits.closedOn": "Cerrado {day}",
  "audits.reopened": "reabierto después",
  "audits.findings": "Hallazgos:",
  "audits.remark": "Observación",
  "audits.tick": "Mirado",
  "audits.tickOf": "Mirado {job}",
};
