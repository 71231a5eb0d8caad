import type { Translation } from "../translation.ts";

export const today: Translation<typeof import("../en/today.ts").today> = {
  "today.link": "Hoy",
  "today.onTablet": "En la tableta",
  "today.before": "Día anterior",
  "today.today": "Hoy",
  "today.after": "Día siguiente",
  "today.caption": "Visitas del día, en la hora de cada emplazamiento",
  "today.time": "Hora",
  "today.fromTo": "{from} a {to}",
  "today.crew": "Equipo",
  "today.job": "Trabajo",
  "today.where": "Lugar",
  "today.standing": "Estado",
  "today.none": "No hay ninguna visita reservada para este día.",
  "today.noneWayOut": "Reserve una para un trabajo abierto o mire otro día arriba.",
  "today.openJobs": "Trabajos abiertos",
  "standing.closed": "cerrado",
  "standing.cancelled": "cancelado",
  "standing.open":
    "{count, plural, one {# punto de espera abierto} other {# puntos de espera abiertos}}",
  "standing.ready": "listo para cerrar",
};
