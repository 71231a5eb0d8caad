import type { Translation } from "../translation.ts";

export const held: Translation<typeof import("../en/held.ts").held> = {
  "held.title": "Retenido",
  "held.ofAll": "De todos los trabajos",
  "held.note":
    "Lo que las tabletas guardaron y aún no tiene efecto. No se pierde nada: quite lo que " +
    "lo impide y aplíquelo, o descártelo con un motivo.",
  "held.tag": "retenido",
  "held.noJob": "Ningún trabajo de su empresa",
  "held.keptBy": "guardado por {name} a las",
  "held.keptByStranger": "guardado por una persona que no es de su empresa a las",
  "held.byTablet": "según el reloj de la tableta",
  "held.sentBy": "enviado por {name}",
  "held.received": "recibido",
  "held.apply": "Aplicarlo ahora",
  "held.dismissIt": "Descartarlo",
  "held.reason": "Motivo (queda en el registro)",
  "held.dismiss": "Descartar",
  "held.none": "No hay nada retenido.",
  "held.noneNote":
    "Lo que una tableta envía para un trabajo cerrado, o que no se puede leer como pide su " +
    "punto, espera aquí una decisión.",
  "held.quarantine": "lo que está en cuarentena",
  "held.quarantineNote":
    "Lo que no se puede leer en absoluto, o llegó por segunda vez con otro contenido, está en " +
    "cuarentena y no tiene efecto.",
  "held.kind.stageTime": "Tiempo de una fase",
  "held.kind.snag": "Repaso",
  "held.kind.message": "Mensaje",
  "held.kind.closeOut": "Cierre solicitado",
};
