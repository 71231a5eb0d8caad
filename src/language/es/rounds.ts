import type { Translation } from "../translation.ts";

export const rounds: Translation<typeof import("../en/rounds.ts").rounds> = {
  "rounds.link": "Rondas de actualización",
  "rounds.title": "Rondas de actualización",
  "rounds.note":
    "Emplazamientos pendientes sin visita reservada, agrupados en rondas diarias para sus " +
    "equipos. Una propuesta no reserva nada hasta que se acepta.",
  "rounds.proposal": "Propuesta",
  "rounds.made": "Hecha",
  "rounds.what": "Qué",
  "rounds.none": "No se ha planificado ninguna ronda.",
  "rounds.noneWayOut": "Planifique abajo: elija días, horas y equipos.",
  "rounds.new": "Planificar rondas",
  "rounds.replaces":
    "Las visitas de las rondas anteriores que no han empezado se cancelan al aceptar estas.",
  "rounds.plan": "Plan de las visitas",
  "rounds.fromDay": "Desde",
  "rounds.days": "Días laborables",
  "rounds.startsAt": "Salida no antes de",
  "rounds.hoursHint": "Dentro del horario de los equipos. Déjelo vacío para usarlo entero.",
  "rounds.notSent": "Equipos que no salen",
  "visitHours.title": "Horas de visita",
  "visitHours.note":
    "Cuándo puede el cliente recibir a un equipo, según el reloj del emplazamiento. Déjelo todo " +
    "vacío si vale cualquier hora. Las rondas de actualización las respetan; las visitas ya " +
    "reservadas se mantienen.",
  "visitHours.day": "Día",
  "visitHours.window": "Horas {number}",
  "visitHours.fromOn": "{day}, horas {number}, desde",
  "visitHours.toOn": "{day}, horas {number}, hasta",
  "visitHours.saved": "Las horas de visita se han guardado.",
  "visitHours.link": "Horas de visita",
  "rounds.endsAt": "De vuelta antes de",
  "rounds.siteMin": "Minutos por emplazamiento",
  "rounds.unitMin": "Minutos por equipo",
  "rounds.sitesMost": "Emplazamientos como máximo",
  "rounds.doPlan": "Planificar las rondas",
  "rounds.noPlan": "Las visitas de actualización necesitan un plan publicado.",
  "rounds.all": "Todas las rondas",
  "rounds.notBooked": "No se ha reservado nada.",
  "rounds.noBase":
    "Su empresa no ha indicado desde dónde salen los equipos, así que se toma el centro de " +
    "estos emplazamientos.",
  "rounds.accept": "Aceptar y reservar todo",
  "rounds.drop": "Descartar",
  "rounds.replan": "Planificar de nuevo lo no empezado",
  "rounds.drawn": "Dibujado a escala",
  "rounds.outAndHome":
    "Salida a las {leaves}, vuelta a las {returns}, {minutes} minutos de conducción " +
    "(estimados por distancia).",
  "rounds.stop": "Parada",
  "rounds.drive": "Viaje, min",
  "rounds.empty": "Nada cabe en estas rondas.",
  "rounds.emptyWayOut":
    "No hay nada pendiente sin visita, o los equipos no tienen horas libres: vea abajo o " +
    "elija otros días.",
  "rounds.leftOut": "Fuera",
  "rounds.state.proposed": "propuesta",
  "rounds.state.accepted": "aceptada",
  "rounds.state.dropped": "descartada",
};
