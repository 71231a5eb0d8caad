import { check } from "./check.ts";
import { checkFaults } from "./check-faults.ts";

export const papers = {
  ...check,
  ...checkFaults,
  "papers.recordLink": "Acta de puesta en servicio (PDF)",
  "papers.record.title": "Acta de puesta en servicio {job}",
  "papers.page": "Página {page} de {pages}",
  "papers.draft": "BORRADOR – sin cerrar",
  "papers.unprintable":
    "Algunos signos del acta no existen en la letra de este documento y figuran como «?». " +
    "El paquete de pruebas los contiene tal cual.",
  "papers.none": "Ninguno.",
  "papers.firm": "Empresa",
  "papers.job": "Trabajo",
  "papers.site": "Emplazamiento",
  "papers.supply": "Suministro",
  "papers.standing": "Cierre",
  "papers.closed": "Cerrado el {at} por {person}",
  "papers.notClosed": "Sin cerrar. Así está el acta ahora; todavía no demuestra nada.",
  "papers.plan": "Plan de inspección y ensayo",
  "papers.planVersion": "{code}, versión {number}: {title}",
  "papers.planHash": "SHA-256 del plan",
  "papers.opened": "Abierto",
  "papers.units": "Unidades",
  "papers.unit": "Unidad",
  "papers.model": "Fabricante y modelo",
  "papers.serial": "Número de serie",
  "papers.hardware": "Hardware",
  "papers.firmware": "Nivel de firmware leído",
  "papers.checked": "Qué se comprobó",
  "papers.tally":
    "{count, plural, one {Se aplicó # punto de espera} other {Se aplicaron # puntos de " +
    "espera}}: {met} cumplidos, {conceded} liberados por concesión.",
  "papers.rule.simple":
    "Regla de decisión: aceptación simple. Una lectura dentro del límite cumple; la " +
    "incertidumbre se indica y no desplaza el límite.",
  "papers.rule.guarded":
    "Regla de decisión: con banda de guarda. Una lectura cumple si queda dentro del límite " +
    "por más que su incertidumbre U.",
  "papers.rule.fourWay":
    "Regla de decisión: cuatro resultados (ILAC-G8:09/2019): cumple, cumple con condición, " +
    "no cumple con condición, no cumple, según la lectura respecto al límite y su " +
    "incertidumbre U.",
  "papers.uncertaintyIs":
    "U es el límite de error declarado del instrumento, tomado como incertidumbre " +
    "expandida (k = 2). Donde no figura U, el instrumento no la declara.",
  "papers.item": "Punto",
  "papers.read": "Leído o hecho",
  "papers.needed": "Exigido",
  "papers.verdict": "Veredicto",
  "papers.takenBy": "Quién, cuándo, con qué",
  "papers.safetyCritical": "crítico para la seguridad",
  "papers.holdPoint": "punto de espera",
  "papers.attempts": "{count} intentos, vale el último",
  "papers.photoCount": "{count, plural, one {# foto} other {# fotos}}",
  "papers.note": "Nota: {note}",
  "papers.earlier": "Intentos anteriores",
  "papers.earlierAre":
    "Una lectura posterior nunca sustituye a la anterior en el acta. Vale la última de " +
    "cada una; las anteriores figuran aquí con el veredicto que recibieron.",
  "papers.instruments": "Instrumentos",
  "papers.instrumentsAre":
    "Con qué se tomaron las lecturas, y las últimas calibraciones conocidas al cambiar el " +
    "acta por última vez.",
  "papers.instrument": "Instrumento",
  "papers.accuracy": "Exactitud",
  "papers.notStated": "no declarada",
  "papers.ofReading": "{percent} % de la lectura",
  "papers.ofRange": "{percent} % del rango",
  "papers.ofSetting": "{percent} % del ajuste",
  "papers.digits": "{count, plural, one {# dígito} other {# dígitos}}",
  "papers.calibrations": "Calibración",
  "papers.calibrated": "{on} a {due}, certificado {certificate}",
  "papers.calibrationFailed": "{on}: no conforme, certificado {certificate}",
  "papers.concessions": "Concesiones",
  "papers.concessionsAre":
    "Una concesión libera lo que no es conforme (ISO 9000). La otorga un responsable; lo " +
    "crítico para la seguridad no admite concesión.",
  "papers.reason": "Motivo",
  "papers.grantedBy": "Otorgada por",
  "papers.holdsUntil": "Válida hasta",
  "papers.noExpiry": "sin caducidad",
  "papers.revoked": "retirada {at} {person}",
  "papers.snags": "Repasos",
  "papers.snagOpen": "abierto desde {at}",
  "papers.snagMended": "resuelto {at}",
  "papers.signatures": "Firmas",
  "papers.customer": "cliente",
  "papers.installer": "instalador",
  "papers.whose": "De quién",
  "papers.signedName": "Nombre",
  "papers.recordedBy": "Anotada por",
  "papers.when": "Cuándo",
  "papers.people": "Quién hizo qué",
  "papers.person": "Persona",
  "papers.did": "Parte en el acta",
  "papers.did.answers": "{count, plural, one {# respuesta} other {# respuestas}}",
  "papers.did.photos": "{count, plural, one {# foto} other {# fotos}}",
  "papers.did.conceded":
    "{count, plural, one {# concesión otorgada} other {# concesiones otorgadas}}",
  "papers.did.closed": "{count, plural, one {cerró el trabajo} other {cerró el trabajo # veces}}",
  "papers.did.reopened": "{count, plural, one {lo reabrió} other {lo reabrió # veces}}",
  "papers.closings": "Cierre",
  "papers.closedUnder":
    "{at}: cerrado por {person} según las reglas {rules}, entrada {entry} del libro, " +
    "cabeza {head}",
  "papers.reopened": "{at}: reabierto por {person}: {reason}",
  "papers.photos": "Fotos",
  "papers.photosAre":
    "Copias pequeñas sin ubicación. El SHA-256 es el de la foto tal como llegó; el paquete " +
    "de pruebas la contiene entera bajo ese hash.",
  "papers.photosLeft":
    "{count, plural, one {# foto más está} other {# fotos más están}} en el paquete de " +
    "pruebas.",
  "papers.cautions": "Precauciones y emergencias",
  "papers.emergency.title": "En una emergencia",
  "papers.emergency.fire":
    "Fuego, humo, silbidos u olor fuerte: saque a todos, manténgase lejos, cierre las " +
    "puertas al salir y llame desde fuera al número de emergencias. Diga que hay una " +
    "batería. No vuelva a entrar ni intente apagar usted el fuego de una batería.",
  "papers.emergency.flood":
    "Agua en las unidades o cerca: no las toque ni pise el agua. Manténgase lejos, llame a " +
    "la empresa, y al número de emergencias si alguien está en peligro.",
  "papers.emergency.damage":
    "Un golpe, una abolladura, hinchazón, fuga o calor: manténgase lejos y llame a la " +
    "empresa. Lo que se derrama puede quemar la piel y su vapor puede ser tóxico o " +
    "inflamarse. No cargue, mueva ni abra nada.",
  "papers.emergency.shock":
    "Descarga eléctrica: no toque a la persona mientras toque algo con tensión. Llame al " +
    "número de emergencias.",
  "papers.emergency.isolate":
    "Solo si es seguro y sin acercarse: desconecte como indican las instrucciones del " +
    "fabricante y la etiqueta junto a las unidades. Una batería sigue cargada aunque esté " +
    "desconectada.",
  "papers.emergency.after":
    "Después no se vuelve a conectar nada hasta que lo revise una persona autorizada: un " +
    "daño interior puede prender horas o días más tarde.",
  "papers.mark": "Logotipo de {firm}",
  "papers.emergency.firm":
    "La empresa: {firm}, teléfono {phone}. En peligro, primero el número de emergencias.",
  "papers.care.title": "Cada día",
  "papers.care.open":
    "No abra nunca una unidad ni quite una tapa: hay partes que siguen con tensión aunque " +
    "todo esté desconectado.",
  "papers.care.clear":
    "Deje libre el espacio alrededor de las unidades como dice el fabricante; no tape " +
    "aberturas, y aleje lo que arde, el calor y el agua.",
  "papers.care.work":
    "Encargue los trabajos, traslados o ampliaciones a una persona autorizada, y avise " +
    "antes a la empresa.",
  "papers.care.paper":
    "Guarde este documento junto a las instrucciones del fabricante, donde se alcance " +
    "desde fuera del recinto de las unidades.",
  "papers.prevail":
    "Las instrucciones del fabricante, las normas y leyes locales y lo que digan los " +
    "bomberos y una persona autorizada prevalecen sobre lo aquí escrito.",
  "papers.checkIt": "Cómo se comprueba esta acta",
  "papers.ledgerIs":
    "Cada lectura, foto, concesión y cierre es una entrada del libro de registro del " +
    "trabajo, y cada una lleva el hash de la anterior. Quien tenga la cabeza de abajo " +
    "puede saber si algo cambió hasta ahí. El paquete de pruebas del trabajo contiene el " +
    "libro entero y las órdenes que lo comprueban.",
  "papers.ledgerEntries": "Entradas",
  "papers.ledgerHead": "Cabeza (SHA-256)",
  "papers.lastChange": "Último cambio",
  "papers.squareAlt": "Código QR de la dirección {address}",
  "papers.squareUse": "Escanee para comparar la cabeza del libro de registro:",
  "papers.packLink": "Dosier de entrega (PDF)",
  "papers.pack.title": "Dosier de entrega {job}",
  "papers.pack.for": "Para",
  "papers.pack.installed": "Qué se instaló",
  "papers.pack.readings":
    "Cada lectura con su límite figura en el acta de puesta en servicio {job}.",
  "papers.pack.stage": "{stage}: {met} de {count} cumplidos",
  "papers.pack.documents": "Documentos que lo acompañan",
  "papers.pack.keep": "Guarde con este dosier las instrucciones del fabricante de cada unidad.",
  "papers.pack.noDocuments": "El trabajo no tiene más documentos archivados.",
} as const;
