/** What was done out of its place, and what comes first: src/domain/acceptance, src/domain/closeout. */
export const sequence = {
  '"{title}"': "«{title}»",
  '"{title}" ({label:said})': "«{title}» ({label})",
  "no. {number}": "n.º {number}",
  'Taken before {named:said} was repeated, since "{failure}" failed.':
    "Hecho antes de repetir {named}, desde que falló «{failure}».",
  "Repeat {title:said} first, then do this again.":
    "Repita primero {title}; después, haga esto de nuevo.",
  "Taken with the supply on before {named:said}, which is done with it off, was met.":
    "Hecho con el suministro conectado antes de cumplirse {named}, que se hace sin él.",
  "Taken before {named:said} was met.": "Hecho antes de cumplirse {named}.",
  "Meet {title:said} first, then do this again.":
    "Cumpla primero {title}; después, haga esto de nuevo.",
  'Breaker "{breaker}" was {state:word} since "{by}"':
    "El interruptor «{breaker}» estaba {state} desde «{by}»",
  'How breaker "{breaker}" stood is not known': "No se sabe cómo estaba el interruptor «{breaker}»",
  'Breaker "{breaker}" was {known:word} since "{by}"; needed {state:word}.':
    "El interruptor «{breaker}» estaba {known} desde «{by}»; se necesita {state}.",
  'How breaker "{breaker}" stood is not known; needed {state:word}.':
    "No se sabe cómo estaba el interruptor «{breaker}»; se necesita {state}.",
  'Do "{title}"': "Haga «{title}»",
  'Bring breaker "{breaker}" there': "Ponga el interruptor «{breaker}»",
  "{way:said}, so that it is {state:word}, then do this again.":
    "{way}, de modo que quede {state}; después, haga esto de nuevo.",
  "Taken {elapsed} after {named:said} was met": "Hecho {elapsed} después de cumplirse {named}",
  "{taken:said}; needed at least {limit}, so from {from} on.":
    "{taken}; se necesitan al menos {limit}, es decir, desde {from}.",
  "Do this again once {limit} have passed.": "Hágalo de nuevo cuando hayan pasado {limit}.",
  "{taken:said}; needed at most {limit}, so until {until}.":
    "{taken}; se admiten como máximo {limit}, es decir, hasta {until}.",
  "Do {title:said} again, then this within {limit}.":
    "Haga de nuevo {title} y después esto antes de {limit}.",
  "{named:said} failed after it, at {at}, so it is to be repeated.":
    "{named} falló después, a las {at}, así que hay que repetirlo.",
  'Put right what failed, repeat this, then repeat "{title}".':
    "Corrija lo que falló, repita esto y después repita «{title}».",
  "There is no {kind:word} on the job.":
    "No hay en el trabajo ninguna unidad de esta clase: {kind}.",
  "There is no unit on the job.": "No hay ninguna unidad en el trabajo.",
  "Put the {kind:word} on the job by its serial number.":
    "Ponga en el trabajo, por su número de serie: {kind}.",
  "Put the unit on the job by its serial number.":
    "Ponga la unidad en el trabajo por su número de serie.",
} as const;
