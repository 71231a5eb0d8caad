import type { Translation } from "../translation.ts";

export const firm: Translation<typeof import("../en/firm.ts").firm> = {
  "firm.title": "Su empresa",
  "firm.facts": "La empresa",
  "firm.saved": "Guardado.",
  "firm.name": "Nombre",
  "firm.unitSystem": "Unidades de medida",
  "firm.units.metric": "Métricas: N·m, mm, °C",
  "firm.units.us": "De EE. UU.: lbf·ft, in, °F",
  "firm.language": "Idioma de los documentos",
  "firm.languageHint":
    "También de los correos a clientes. Cada persona elige el suyo para las páginas.",
  "firm.latitude": "Base: latitud",
  "firm.longitude": "Base: longitud",
  "firm.baseHint":
    "De dónde salen y a dónde vuelven los equipos, en grados. Los trayectos se cuentan desde ahí.",
  "firm.documents": "En sus documentos",
  "firm.documentsNote":
    "Figura en las actas de puesta en servicio, las carpetas de entrega y los correos a clientes.",
  "firm.address": "Dirección postal",
  "firm.phone": "Teléfono",
  "firm.email": "Correo electrónico",
  "firm.website": "Sitio web",
  "firm.registrations": "Registros",
  "firm.registrationsHint": "Mercantil, fiscal y profesional, como pida la ley local.",
  "firm.colour": "Color de los títulos",
  "firm.colourHint": "Lo bastante oscuro para leerse en papel blanco.",
  "firm.mark": "Distintivo",
  "firm.markOf": "El distintivo de {name}",
  "firm.noMark": "No hay distintivo. Los documentos llevan solo el nombre de la empresa.",
  "firm.markFile": "Imagen: PNG, JPEG o WebP, 2 MB como máximo",
  "firm.keepMark": "Guardar este distintivo",
  "firm.removeMark": "No usar distintivo",
};
