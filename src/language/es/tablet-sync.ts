import type { Translation } from "../translation.ts";

export const tabletSync: Translation<typeof import("../en/tablet-sync.ts").tabletSync> = {
  "tabletSync.notAsked": "Aún no se ha preguntado al servicio.",
  "tabletSync.sending": "Enviando lo guardado aquí.",
  "tabletSync.brokeOff": "El envío se ha interrumpido.",
  "tabletSync.settled": "Todo lo guardado en esta tableta está en la oficina.",
  "tabletSync.signedOut":
    "Nadie ha entrado. Lo guardado aquí se envía cuando entre alguien de la empresa.",
  "tabletSync.otherFirm":
    "Ha entrado alguien de otra empresa. Lo guardado aquí espera a una persona de la suya.",
  "tabletSync.notLost": "{sentence} Lo guardado aquí no se pierde.",
  "tabletSync.offline":
    "Sin cobertura. Todo queda guardado en esta tableta y se envía solo más tarde.",
  "tabletSync.stranger":
    "Responde la red en lugar del servicio, como hace una página de acceso. Abra la página de " +
    "la red para entrar en ella o use otra red. No se ha enviado nada.",
  "tabletSync.busy":
    "El servicio está ocupado o tiene una avería. Se reintenta solo; no se pierde nada.",
  "tabletSync.outdated":
    "El servicio no entiende lo que envía esta versión de la página. Vuelva a cargarla con " +
    "cobertura; hasta entonces todo sigue guardado aquí.",
  "tabletSync.refused": "El servicio lo ha rechazado ({status}).",
  "tabletSync.storeTrouble":
    "El almacén de la tableta no ha podido anotar lo que respondió el servicio. Haga sitio en " +
    "la tableta o vuelva a cargar la página; nada se envía dos veces.",
  "tabletSync.jobGone":
    "El servicio dice que este trabajo ya no existe. Si aún hay que hacerlo, llame a la oficina.",
  "tabletSync.packetUnreadable":
    "Está escrito para una versión más nueva de esta página: vuelva a cargarla con cobertura.",
  "tabletSync.pictureGone": "Su imagen ya no está en esta tableta.",
  "tabletSync.photoTooLarge": "El servicio no admite una foto tan grande.",
  "tabletSync.notKept.full":
    "No queda sitio en esta tableta, así que esto no se ha guardado. Envíe lo pendiente o " +
    "guárdelo en un archivo, borre vídeos o aplicaciones para hacer sitio y toque otra vez.",
  "tabletSync.notKept.outdated":
    "Una versión más nueva de esta página ha reorganizado el almacén. Vuelva a cargar la página " +
    "y siga; lo guardado sigue ahí.",
  "tabletSync.notKept.broken":
    "El almacén de la tableta no lo ha aceptado, así que no se ha guardado. Toque otra vez; si " +
    "vuelve a pasar, cargue la página de nuevo.",
};
