import type { Translation } from "../translation.ts";

export const tabletItem: Translation<typeof import("../en/tablet-item.ts").tabletItem> = {
  "tabletItem.stage":
    "{reference}. Etapa {at} de {of}: {title}, {left, plural, =0 {todo cumplido} one {queda #} " +
    "other {quedan #}}",
  "tabletItem.place": "{label} ({place} de {places})",
  "tabletItem.safetyCritical": "Punto de espera crítico para la seguridad",
  "tabletItem.holdPoint": "Punto de espera",
  "tabletItem.supplyDead": "Sin tensión, ausencia comprobada",
  "tabletItem.supplyLive": "Con tensión",
  "tabletItem.breaker": "Interruptor {name} {state, select, closed {cerrado} other {abierto}}",
  "tabletItem.live":
    "Hay tensión. Use el equipo de protección indicado y puntas de prueba verificadas; aquí solo " +
    "trabaja quien está habilitado para ello. Prevalecen las instrucciones del fabricante y la " +
    "normativa local.",
  "tabletItem.dead":
    "Desconecte, bloquee y compruebe la ausencia de tensión antes de tocar nada. Prevalecen las " +
    "instrucciones del fabricante y la normativa local.",
  "tabletItem.cautions": "Precauciones",
  "tabletItem.caution": "Precaución",
  "tabletItem.why": "Por qué",
  "tabletItem.notYet": "Todavía no",
  "tabletItem.comesFirst": "Hay algo que va antes",
  "tabletItem.goTo": "Ir a «{title}»",
  "tabletItem.marked":
    "Una respuesta dada ahora se guarda, cuenta y queda marcada como fuera de orden.",
  "tabletItem.blocked":
    "Una respuesta dada ahora se guarda, pero no cuenta: habrá que repetirla en su momento.",
  "tabletItem.from": "Se puede hacer a partir de las {time}.",
  "tabletItem.needed": "Hace falta",
  "tabletItem.oneOf": "uno de: {values}",
  "tabletItem.neededHere": "{needed} (redondeado: {here})",
  "tabletItem.kept": "Guardado. {words}",
  "tabletItem.asItStands": "Tal como está: {words}",
  "tabletItem.answerWaits": "Una respuesta espera a la oficina: {sentence}",
  "tabletItem.twice":
    "Dos tabletas han respondido a esto sin saber la una de la otra. Se guardan las dos " +
    "respuestas; cuenta la última, y la oficina ve ambas.",
  "tabletItem.attempts": "{count, plural, one {# intento} other {# intentos}}",
  "tabletItem.notJudged": "Sin juzgar",
  "tabletItem.note": "Nota: {text}",
  "tabletItem.attemptHere":
    "{day}, {time}, {whose, select, own {por usted} other {por otra persona}}, en esta tableta, " +
    "aún sin enviar",
  "tabletItem.attemptThere":
    "{day}, {time}, {whose, select, own {por usted} other {por otra persona}}, en el servidor",
  "tabletItem.verdict": "Veredicto",
  "tabletItem.foretold": "{outcome}: {sentence}",
  "tabletItem.outcome.pass": "Cumplido",
  "tabletItem.outcome.fail": "No cumplido",
  "tabletItem.outcome.marginal": "Cerca del límite",
  "tabletItem.outcome.missing": "Abierto",
  "tabletItem.outcome.stale-instrument": "Instrumento no apto",
  "tabletItem.outcome.out-of-sequence": "Fuera de orden",
  "tabletItem.outcome.conceded": "Liberado por concesión",
  "tabletItem.outcome.not-applicable": "No se aplica",
  "tabletItem.metNearLimit": "Cumplido, cerca del límite",
  "tabletItem.notMetNearLimit": "No cumplido, cerca del límite",
  "tabletItem.metOutOfSequence": "Cumplido, fuera de orden",
  "tabletItem.later": "Más tarde",
  "tabletItem.done": "Hecho",
  "tabletItem.keep": "Guardar",
  "tabletItem.again": "Otra vez",
  "tabletItem.next": "Siguiente",
  "tabletItem.leave": "Dejarlo",
  "tabletItem.answerAgain": "Responder otra vez",
  "tabletItem.notKept": "No se ha guardado. Toque otra vez.",
  "tabletItem.incomplete": "Todavía falta algo arriba.",
  "tabletItem.switchAt": "{label} en {position}",
  "tabletItem.switchWanted": "{label} tiene que estar en {position}.",
};
