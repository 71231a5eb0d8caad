import type { Translation } from "../translation.ts";

export const notice: Translation<typeof import("../en/notice.ts").notice> = {
  "notice.title": "Firmware pendiente",
  "notice.link": "Avisos",
  "notice.pageTitle": "Avisos",
  "notice.subject":
    "Firmware pendiente en {sites, plural, one {# emplazamiento} other {# emplazamientos}}, " +
    "{overdue, plural, one {# equipo vencido} other {# equipos vencidos}}",
  "notice.figures":
    "{units, plural, one {# equipo está} other {# equipos están}} por debajo del objetivo " +
    "en {sites, plural, one {# emplazamiento} other {# emplazamientos}}; {overdue} pasados " +
    "de fecha.",
  "notice.onlySafety": "Como pidió, solo lo que está por debajo de una versión de seguridad.",
  "notice.unclear":
    "Además, {count, plural, one {# equipo tiene un nivel} other {# equipos tienen " +
    "niveles}} desconocidos o que no se pueden ordenar: léalos en la próxima visita.",
  "notice.escalated":
    "{count, plural, one {# emplazamiento lleva} other {# emplazamientos llevan}} mucho " +
    "tiempo vencidos o por debajo de una versión de seguridad, y nadie ha reservado visita:",
  "notice.freeSlots": "Sus próximas horas sin reservas:",
  "notice.fromTo": "{from} a {to}",
  "notice.due": "vence el {day}",
  "notice.lastDay": "hoy es el último día",
  "notice.visitOn": "Visita reservada: {job} el {day}",
  "notice.noVisit": "Sin visita reservada",
  "notice.more": "Y {count, plural, one {# emplazamiento más} other {# emplazamientos más}}.",
  "notice.wholeList": "La lista entera, con sus filtros:",
  "notice.caution":
    "Antes de actualizar: siga las instrucciones del fabricante y aísle donde lo indiquen. " +
    "La normativa local y el criterio de un profesional habilitado prevalecen.",
  "notice.wish": "Avisos de firmware",
  "notice.wish.all": "todo lo que me concierne",
  "notice.wish.safety": "solo versiones de seguridad",
  "notice.day": "Día",
  "notice.kind": "Acerca de",
  "notice.kind.firmware-due": "Firmware",
  "notice.kind.warranty-due": "Garantía",
  "notice.subjectHead": "Aviso",
  "notice.new": "nuevo",
  "notice.dueByDay": "largo de la lista de actualizaciones pendientes por día",
  "notice.none": "No ha recibido ningún aviso.",
  "notice.exportAll": "Exportar como CSV quién recibió cada aviso",
  "notice.noneNote":
    "Una vez al día, cuando hay firmware pendiente que le concierne, el aviso aparece aquí " +
    "y va a su correo.",
};
