import type { Translation } from "../translation.ts";

export const tabletVisit: Translation<typeof import("../en/tablet-visit.ts").tabletVisit> = {
  "tabletVisit.signedInAs": "Sesión de {name}.",
  "tabletVisit.alsoHere": "También en esta tableta",
  "tabletVisit.asking": "Preguntando …",
  "tabletVisit.fetch": "Descargar y enviar ahora",
  "tabletVisit.times": "{from} – {to}",
  "tabletVisit.none": "No hay ninguna visita en esta tableta.",
  "tabletVisit.noneNote":
    "{sentence} Las visitas de hoy y de mañana llegan solas mientras haya cobertura.",
  "tabletVisit.notHere": "Aún no está aquí",
  "tabletVisit.notDownloaded": "Aún sin descargar; llega sola en cuanto haya cobertura.",
  "tabletVisit.downloadFailed": "No se ha podido descargar. {problem}",
  "tabletVisit.left": "{count, plural, one {Queda #} other {Quedan #}}",
  "tabletVisit.jobState":
    "Trabajo {state, select, closed {cerrado} cancelled {anulado} other {abierto}}",
  "tabletVisit.notYours": "Sin visita suya ahora",
  "tabletVisit.notUpToDate": "No está al día. {problem}",
  "tabletVisit.asOf": "{reference}. En esta tableta desde: {day}, {time}.",
  "tabletVisit.railMet": "{met} de {total} cumplidos",
  "tabletVisit.notOnTablet": "No está en esta tableta",
  "tabletVisit.notOnTabletNote":
    "Este trabajo no se ha descargado o se retiró tras su visita. Vuelve solo mientras haya " +
    "cobertura, si está en su lista.",
  "tabletVisit.job": "Trabajo {reference}",
  "tabletVisit.next": "Siguiente",
  "tabletVisit.allItems": "Todo",
  "tabletVisit.closeOut": "Cierre",
  "tabletVisit.ring": "Llamar al {phone}",
  "tabletVisit.allMet": "todo cumplido",
  "tabletVisit.stageLeft":
    "{left, plural, one {queda #} other {quedan #}}, {holdPoints, plural, one {# de ellos punto " +
    "de espera} other {# de ellos puntos de espera}}",
  "tabletVisit.comesFirst": "hay algo que va antes",
  "tabletVisit.holdPoint": "punto de espera",
  "tabletVisit.noSuchItem": "No existe ese punto",
  "tabletVisit.noSuchItemNote": "El plan no lo pide.",
  "tabletVisit.officeNeeded": "Hace falta la oficina",
  "tabletVisit.everyItemMet": "Todos los puntos están cumplidos",
  "tabletVisit.everyItemMetNote": "Revise el cierre y después pídalo.",
  "tabletVisit.toCloseOut": "Ir al cierre",
  "tabletVisit.wait": "Espere",
  "tabletVisit.waitUntil":
    "«{title}» se puede hacer a partir de las {time}. El tiempo corre aunque guarde la tableta.",
  "tabletVisit.holdPointsMet": "{met} de {total} puntos de espera están cumplidos.",
  "tabletVisit.nothingInTheWay":
    "Nada impide el cierre, por lo que hay en esta tableta. El servidor lo revisa otra vez y " +
    "espera las fotos.",
  "tabletVisit.inTheWay": "Qué impide el cierre",
  "tabletVisit.prevail":
    "La normativa local y el ejercicio de personas habilitadas prevalecen sobre esta lista.",
  "tabletVisit.askToClose": "Pedir el cierre del trabajo",
  "tabletVisit.askAllTheSame": "Pedirlo de todos modos",
  "tabletVisit.asked": "Cierre del trabajo pedido. Decide el servidor.",
  "tabletVisit.photosStillHere":
    "{count, plural, one {# foto sigue en esta tableta.} other {# fotos siguen en esta " +
    "tableta.}} El cierre se pide solo cuando el servidor las tenga; deje la tableta encendida " +
    "hasta entonces.",
  "tabletVisit.askedWaiting": "Pedido; a la espera del servidor. Puede seguir.",
  "tabletVisit.officeLooks": "Lo mira la oficina.",
  "tabletVisit.closed": "El servidor ha cerrado el trabajo.",
  "tabletVisit.notClosed":
    "{count, plural, one {El servidor no ha cerrado el trabajo: # cosa lo impide.} other {El " +
    "servidor no ha cerrado el trabajo: # cosas lo impiden.}}",
  "tabletVisit.notClosedSome": "El servidor no ha cerrado el trabajo: algo lo impide.",
  "tabletVisit.messages": "{count, plural, =0 {Mensajes} other {Mensajes (#)}}",
  "tabletVisit.message.waiting": "en esta tableta, a la espera de enviarse",
  "tabletVisit.message.stored": "enviado",
  "tabletVisit.message.held": "enviado, retenido para la oficina",
  "tabletVisit.message.refused": "rechazado por el servidor: véase lo que está por enviar",
  "tabletVisit.noMessages": "Nadie ha escrito todavía.",
  "tabletVisit.you": "Usted",
  "tabletVisit.writeMessage": "Para la oficina y el equipo",
  "tabletVisit.keepMessage": "Guardar el mensaje",
  "tabletVisit.messageKept": "Mensaje guardado.",
  "tabletVisit.noteSnag": "Anotar un repaso",
  "tabletVisit.snag": "Qué hay que arreglar más tarde",
  "tabletVisit.snagsHere": "Anotado en esta tableta",
  "tabletVisit.keepSnag": "Guardar el repaso",
  "tabletVisit.snagKept": "Repaso guardado.",
  "tabletVisit.kept": "Guardado.",
  "tabletVisit.notKept": "No se ha guardado.",
};
