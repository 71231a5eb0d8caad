import type { Translation } from "../translation.ts";

export const home: Translation<typeof import("../en/home.ts").home> = {
  "home.title": "Lo que le espera ahora",
  "home.greeting": "Hola, {name}",
  "home.visits": "Visitas de hoy",
  "home.blocked": "Empezados y aún sin cerrar",
  "home.held": "Retenido de las tabletas",
  "home.overdue": "Más atrasados en firmware",
  "home.nonconformances": "No conformidades por resolver",
  "home.mails": "Correo sin entregar",
  "home.instruments": "Instrumentos por vencer",
  "home.qualifications": "Cualificaciones por vencer",
  "home.concessions": "Concesiones por vencer",
  "home.records": "Registros listos para revisar",
  "home.all": "La lista entera",
  "home.open": "{count, plural, one {# impedimento} other {# impedimentos}}",
  "home.heldOps":
    "{count, plural, one {# entrada espera una decisión} other {# entradas esperan una decisión}}",
  "home.unitsBelow":
    "{units, plural, one {# equipo por debajo de su objetivo} other {# equipos por debajo" +
    " de su objetivo}}",
  "home.daysOver": "{days, plural, one {# día de retraso} other {# días de retraso}}",
  "home.notDelivered": "sin entregar",
  "home.dueOn": "vence el {day}",
  "home.overdueSince": "atrasada desde el {day}",
  "home.effectDueOn": "comprobar el efecto hasta el {day}",
  "home.effectOverdueSince": "comprobación del efecto atrasada desde el {day}",
  "home.notFit": "no apto ahora",
  "home.ends": "termina el {day}",
  "home.ended": "terminó el {day}",
  "home.closed": "cerrado por {who}, {when}",
  "home.closedTag": "cerrado",
  "home.quiet": "Nada por ahora en:",
  "home.nothing": "Nada le espera ahora.",
  "home.nothingLeads": "Abra el siguiente trabajo o reserve visitas para los que no tienen.",
  "home.toJobs": "A los trabajos",
  "home.nothingInstalls": "Hoy no tiene ninguna visita.",
  "home.toToday": "A los días",
  "home.nothingAudits":
    "Todavía no se ha cerrado ningún trabajo. Busque un emplazamiento o un equipo y vea " +
    "su historia.",
  "home.toSearch": "A la búsqueda",
};
