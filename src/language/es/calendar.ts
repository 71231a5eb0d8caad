import type { Translation } from "../translation.ts";

export const calendar: Translation<typeof import("../en/calendar.ts").calendar> = {
  "calendar.link": "Mi calendario",
  "calendar.title": "Sus visitas en su propio calendario",
  "calendar.note":
    "Una dirección secreta permite que su programa de calendario lea sus visitas. Vuelve a " +
    "preguntar por sí solo, así que también muestra las visitas cambiadas y canceladas.",
  "calendar.made": "Su nueva dirección",
  "calendar.once":
    "Cópiela ahora: solo se muestra esta vez. Quien la tenga sabe dónde estará usted; no se la " +
    "dé a nadie.",
  "calendar.address": "Dirección",
  "calendar.how":
    "En su programa de calendario elija suscribirse a un calendario por su dirección y péguela " +
    "allí.",
  "calendar.now": "Su dirección de calendario",
  "calendar.since": "Creada",
  "calendar.fetched": "Última lectura por un programa de calendario",
  "calendar.never": "todavía ninguna",
  "calendar.replace": "Crear una dirección nueva",
  "calendar.end": "Anular la dirección",
  "calendar.replaceNote":
    "Una dirección nueva anula la anterior al momento; hágalo si pierde el teléfono.",
  "calendar.none": "No tiene dirección de calendario.",
  "calendar.noneWayOut": "Cree una y désela a su programa de calendario.",
  "calendar.make": "Crear una dirección de calendario",
  "calendar.what":
    "Contiene las visitas que tiene asignadas, desde hace 30 días hasta dentro de 180: horas, " +
    "lugar, equipo de trabajo y referencia del trabajo; ningún nombre, teléfono ni nota del " +
    "cliente.",
  "calendar.name": "{person}, visitas de {firm}",
  "calendar.cancelled": "Cancelada: {what}",
  "calendar.crew": "Equipo de trabajo: {crew}",
};
