export const handover = {
  "handover.link": "Entregar",
  "handover.title": "Sus documentos de {firm}",
  "handover.what":
    "Del trabajo {job}: el dosier de entrega, para guardar junto a las unidades, y el acta " +
    "de todo lo comprobado. Guarde ambos e imprima el dosier.",
  "handover.reopened":
    "El trabajo se reabrió después. Hasta que se cierre de nuevo, los documentos son " +
    "borradores.",
  "handover.until": "Este enlace abre hasta el {day}. Después, pida otro a la empresa.",
  "handover.emergency":
    "Fuego, humo, agua o daños: manténgase lejos y llame al número de emergencias. El " +
    "dosier dice qué más hacer; prevalecen las instrucciones del fabricante y las normas " +
    "locales.",
  "handover.jobTitle": "Entregar {job}",
  "handover.made": "El enlace",
  "handover.once": "Se muestra solo esta vez. Quien lo tenga puede leer los documentos.",
  "handover.address": "Dirección",
  "handover.new": "Un enlace para el cliente",
  "handover.newNote":
    "Abre el dosier de entrega y el acta de puesta en servicio sin cuenta, hasta que " +
    "caduque o usted lo termine. Crearlo y abrirlo quedan en el libro de registro del " +
    "trabajo.",
  "handover.days": "Días que abre",
  "handover.language": "Idioma",
  "handover.languageHint": "El del cliente o, si no, el de la empresa, salvo que elija.",
  "handover.mailTo": "Enviarlo a {address}",
  "handover.noAddress": "El cliente no tiene una dirección que reciba correo.",
  "handover.make": "Crear el enlace",
  "handover.notClosed": "El trabajo no está cerrado: un borrador no se entrega.",
  "handover.links": "Enlaces hasta ahora",
  "handover.live": "abierto",
  "handover.liveUntil": "hasta {at}",
  "handover.ended": "terminado",
  "handover.ranOut": "caducado",
  "handover.madeBy": "{person}, {at}",
  "handover.mailed": "por correo",
  "handover.opened":
    "{count, plural, =0 {aún sin abrir} one {un documento abierto una vez} other " +
    "{documentos abiertos # veces}}",
  "handover.last": "la última vez {at}",
  "handover.end": "Terminar",
  "handover.endOne": "Terminar el enlace creado {at}",
  "handover.none": "Nadie ha recibido un enlace.",
  "handover.noneWayOut": "Cree uno arriba o imprima los documentos.",
  "handover.mail.subject": "Sus documentos de {firm}",
  "handover.mail.lead":
    "{firm} ha terminado el trabajo {job}. Aquí están su dosier de entrega y el acta de lo " +
    "comprobado:",
  "handover.mail.open": "Abrir los documentos",
  "handover.mail.until": "El enlace abre hasta el {day}. Guarde los documentos antes.",
  "handover.mail.care":
    "Guarde el dosier donde se alcance desde fuera del recinto de las unidades. En una " +
    "emergencia, manténgase lejos y llame al número de emergencias.",
} as const;
