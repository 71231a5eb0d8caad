import type { Translation } from "../translation.ts";

export const tabletOutbox: Translation<typeof import("../en/tablet-outbox.ts").tabletOutbox> = {
  "tabletOutbox.short.settled": "Todo enviado",
  "tabletOutbox.short.sending": "Enviando",
  "tabletOutbox.short.offline": "Sin cobertura",
  "tabletOutbox.short.sign-in": "Volver a entrar",
  "tabletOutbox.short.stranger": "Otra red",
  "tabletOutbox.short.busy": "Se reintentará",
  "tabletOutbox.short.outdated": "Versión nueva",
  "tabletOutbox.waiting": "{count} en espera",
  "tabletOutbox.shortAndWaiting": "{short}, {count} en espera",
  "tabletOutbox.kept": "{kept} en esta tableta, {waiting} en espera.",
  "tabletOutbox.keptAndPhotos":
    "{kept} en esta tableta, {waiting} en espera, y {photos, plural, one {# foto} other " +
    "{# fotos}} ({size}).",
  "tabletOutbox.lastContact": "Último contacto: {when}.",
  "tabletOutbox.withOffice": "{count} en manos de la oficina: véase abajo.",
  "tabletOutbox.entries": "Entradas, primero las últimas",
  "tabletOutbox.more": "Y {count} anteriores a estas.",
  "tabletOutbox.sendNow": "Enviar ahora",
  "tabletOutbox.state.waiting": "en esta tableta, a la espera de enviarse",
  "tabletOutbox.state.stored": "en el servidor",
  "tabletOutbox.state.held": "en el servidor, retenido para la oficina",
  "tabletOutbox.state.refused": "rechazado por el servidor, apartado para la oficina",
  "tabletOutbox.place": "{when}, n.º {number}",
  "tabletOutbox.placeOfJob": "{job}, {when}, n.º {number}",
  "tabletOutbox.stageTime": "Tiempo de la etapa «{stage}»",
  "tabletOutbox.snag": "Repaso: {text}",
  "tabletOutbox.message": "Mensaje: {text}",
  "tabletOutbox.closeOut": "Cierre del trabajo pedido",
  "tabletOutbox.photos": "Fotos en camino",
  "tabletOutbox.photoRefused": "{size}, rechazada: {problem}",
  "tabletOutbox.photoSent": "{size}, enviado el {share}",
  "tabletOutbox.lastResort": "Si no se puede enviar",
  "tabletOutbox.lastResortNote":
    "Guarde en un archivo todo lo que no se ha enviado y déselo a la oficina.",
  "tabletOutbox.save": "Guardar lo pendiente en un archivo",
  "tabletOutbox.restore": "Recuperar de un archivo",
  "tabletOutbox.restored":
    "{count, plural, one {# entrada era nueva y se ha recuperado.} other {# entradas eran " +
    "nuevas y se han recuperado.}}",
  "tabletOutbox.unreadable": "No se ha podido leer el archivo.",
};
