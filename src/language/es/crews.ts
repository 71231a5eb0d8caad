import type { Translation } from "../translation.ts";

export const crews: Translation<typeof import("../en/crews.ts").crews> = {
  "crews.link": "Equipos de trabajo",
  "crews.title": "Equipos de trabajo",
  "crews.note":
    "Instaladores que salen juntos. Una visita reserva el equipo y a cada una de sus " +
    "personas.",
  "crews.crew": "Equipo",
  "crews.members": "Personas",
  "crews.nobody": "nadie todavía",
  "crews.none": "No hay ningún equipo.",
  "crews.noneWayOut": "Forme uno abajo: un nombre y sus instaladores.",
  "crews.standing": "Situación",
  "crews.goesOut": "sale a trabajar",
  "crews.disbanded": "disuelto",
  "crews.new": "Un equipo nuevo",
  "crews.add": "Formar el equipo",
  "crews.name": "Nombre",
  "crews.noInstallers": "Todavía no hay nadie con el papel de instalador.",
  "crews.all": "Todos los equipos",
  "crews.active": "Sale a trabajar; sin la marca queda disuelto",
};
