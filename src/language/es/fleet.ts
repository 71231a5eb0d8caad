import type { Translation } from "../translation.ts";

export const fleet: Translation<typeof import("../en/fleet.ts").fleet> = {
  "fleet.link": "Parque",
  "fleet.title": "El firmware del parque",
  "fleet.exposure": "Expuesto, por gravedad y por el día en que vencía o vence",
  "fleet.noExposure": "Ningún equipo está por debajo de su objetivo.",
  "fleet.noExposureNote":
    "Ponga una versión objetivo para un modelo de producto y aquí se cuenta lo que está por " +
    "debajo.",
  "fleet.severity": "Gravedad",
  "fleet.severity.safety": "seguridad",
  "fleet.severity.important": "importante",
  "fleet.severity.routine": "rutina",
  "fleet.term.over30": "más de 30 días tarde",
  "fleet.term.over": "hasta 30 días tarde",
  "fleet.term.week": "en una semana",
  "fleet.term.month": "en 30 días",
  "fleet.term.later": "más tarde",
  "fleet.unitsAtSites":
    "{units} en {sites, plural, one {# emplazamiento} other {# emplazamientos}}",
  "fleet.levels": "Niveles por modelo",
  "fleet.model": "Modelo",
  "fleet.units": "Equipos",
  "fleet.target": "Objetivo",
  "fleet.noTarget": "sin objetivo",
  "fleet.below": "Por debajo",
  "fleet.unclear": "Desconocido o no ordenable",
  "fleet.levelsNow": "Niveles actuales",
  "fleet.moreLevels": "{count, plural, one {# nivel más} other {# niveles más}}",
  "fleet.unknown": "desconocido",
  "fleet.noUnits": "No hay ningún equipo instalado.",
  "fleet.noUnitsWayOut":
    "Los equipos aparecen aquí cuando se cierra el trabajo que los instala, o al " + "importarlos.",
  "fleet.adoptionOf":
    "Cómo se extienden las versiones de {code} en {units, plural, one {# equipo} other {# " +
    "equipos}}",
  "fleet.adoptionNote":
    "Equipos instalados hoy según la primera lectura en cada versión o por encima, en las " +
    "últimas 26 semanas. La línea discontinua son todos.",
  "fleet.asTable": "Como tabla",
  "fleet.weekTo": "Semana hasta",
  "fleet.noReleases": "Ningún equipo se ha leído en una versión de este modelo o por encima.",
  "fleet.places": "Dónde están",
  "fleet.standing.overdue": "vencido",
  "fleet.standing.due": "pendiente",
  "fleet.standing.fine": "al día",
  "fleet.group": "{sites} emplazamientos: {due} pendientes, {overdue} de ellos vencidos",
  "fleet.around": "Alrededor de",
  "fleet.sites": "Emplazamientos",
  "fleet.failures": "Actualizaciones fallidas",
  "fleet.failureRate":
    "{failed} de {tried} actualizaciones en trabajos fallaron en {days} días: {rate} %; " +
    "entre {low} % y {high} % con un 95 % de confianza (intervalo binomial exacto).",
  "fleet.failuresList": "Las fallidas",
  "fleet.noUpdates": "No se hizo ninguna actualización en un trabajo en {days} días.",
  "fleet.slowest": "Vencidos desde hace más tiempo",
  "fleet.site": "Emplazamiento",
  "fleet.wasDue": "Vencía",
  "fleet.daysOver": "Días de más",
  "fleet.noneOver": "No hay nada vencido.",
};
