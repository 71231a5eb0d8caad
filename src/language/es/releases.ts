import type { Translation } from "../translation.ts";

export const releases: Translation<typeof import("../en/releases.ts").releases> = {
  "releases.link": "Versiones y anillos",
  "releases.title": "Versiones de firmware y anillos",
  "releases.targets": "Lo que deben tener los equipos",
  "releases.targetsHere": "De los modelos cuyas versiones figuran abajo.",
  "releases.state": "Situación",
  "releases.stands": "sin retirar",
  "releases.withdrawn": "retiradas",
  "releases.where": "Dónde",
  "releases.everywhere": "en todas partes",
  "releases.level": "Nivel",
  "releases.standing": "Cómo está",
  "releases.state.waiting": "en espera",
  "releases.state.open": "abierto",
  "releases.state.held": "retenido",
  "releases.state.passed": "superado",
  "releases.open": "Abrir el anillo",
  "releases.hold": "Retener",
  "releases.reason": "Motivo",
  "releases.releases": "Versiones",
  "releases.released": "Publicada",
  "releases.conditions": "Condiciones",
  "releases.file": "Fichero",
  "releases.do": "Actuar",
  "releases.withdrawnOn": "retirada el {day}",
  "releases.stepsFrom": "desde {level} o posterior",
  "releases.stepsBelow": "por debajo de {level}",
  "releases.revisions": "revisiones {list}",
  "releases.companions":
    "{count, plural, one {necesita # modelo más} other {necesita # modelos más}}",
  "releases.makeTarget": "Ponerla como objetivo",
  "releases.throughRings": "Enviarla por los anillos",
  "releases.withdraw": "Retirar",
  "releases.none": "No hay ninguna versión registrada.",
  "releases.noneWayOut":
    "Registre abajo la primera del fabricante; después póngala como objetivo o envíela por " +
    "anillos.",
  "releases.rings": "Anillos",
  "releases.ringsNote":
    "Una versión se prueba en el primer anillo y luego sigue. Un anillo se retiene cuando " +
    "el límite inferior del 95 % de su tasa de fallos (binomial exacto) supera lo que se " +
    "tolera.",
  "releases.ringSays":
    "{sites, plural, one {# emplazamiento} other {# emplazamientos}}; al menos {least} " +
    "actualizados, luego {days, plural, one {# día} other {# días}}; como mucho {percent} % " +
    "de fallos",
  "releases.ring": "Anillo",
  "releases.ringHas": "Contiene {sites} emplazamientos.",
  "releases.byRule": "Incluir emplazamientos según una regla",
  "releases.byRuleNote":
    "Tome todos los emplazamientos de una región o con equipos de un modelo, o una parte. " +
    "La parte se elige al azar, pero es siempre la misma: una mayor incluye esos y más.",
  "releases.percent": "Parte de ellos, por ciento",
  "releases.alsoFromOtherRings": "También los que ya están en otro anillo",
  "releases.tryRule": "Solo contar",
  "releases.placeSites": "Incluirlos",
  "releases.wouldPlace":
    "{placed} de {matching} emplazamientos quedarían en el anillo. No ha cambiado nada.",
  "releases.placed": "{placed} de {matching} emplazamientos están en el anillo.",
  "releases.addRing": "Añadir un anillo",
  "releases.ringName": "Nombre",
  "releases.ringPosition": "Lugar en el orden",
  "releases.updatedLeast": "Equipos actualizados como mínimo",
  "releases.soakDays": "Días de espera después",
  "releases.failurePercent": "Fallos tolerados, por ciento",
  "releases.opensItself": "El anillo siguiente se abre solo",
  "releases.ringTaken": "Otro anillo tiene ese nombre o ese lugar.",
  "releases.new": "Una versión nueva",
  "releases.fromMin": "Se instala sobre este nivel o posterior",
  "releases.fromBelow": "y por debajo de este nivel",
  "releases.revisionsField": "Revisiones de hardware",
  "releases.revisionsHint": "Con comas; ninguna significa todas",
  "releases.deadlineDays": "Días hasta su fecha",
  "releases.fileName": "Nombre del fichero",
  "releases.fileSha256": "SHA-256 del fichero",
  "releases.notes": "Notas",
  "releases.keep": "Registrar la versión",
};
