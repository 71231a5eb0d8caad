import type { Translation } from "../translation.ts";

export const due: Translation<typeof import("../en/due.ts").due> = {
  "due.title": "Firmware pendiente",
  "due.which": "Qué emplazamientos",
  "due.overdue": "Vencido",
  "due.safety": "Seguridad",
  "due.region": "Región",
  "due.from": "Vence desde",
  "due.before": "Vence antes de",
  "due.counts":
    "{units, plural, one {# equipo} other {# equipos}} en {sites, plural, one {# " +
    "emplazamiento} other {# emplazamientos}} por debajo del objetivo; {overdue} pasados de " +
    "fecha; además, {unknown, plural, one {# equipo} other {# equipos}} con un nivel " +
    "desconocido o que no se puede ordenar.",
  "due.blocked": "bloqueado",
  "due.unit": "Equipo",
  "due.fromLevel": "De",
  "due.toLevel": "A",
  "due.due": "Vence",
  "due.visit": "Visita",
  "due.noVisit": "sin reservar",
  "due.daysOver": "{days, plural, one {# día de más} other {# días de más}}",
  "due.daysLeft": "{days, plural, one {queda # día} other {quedan # días}}",
  "due.today": "hoy",
  "due.readLevel": "leer el nivel",
  "due.compare": "comparar a mano",
};
