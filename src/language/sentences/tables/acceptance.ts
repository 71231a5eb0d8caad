/** What is found of answers: src/domain/acceptance. */
export const acceptance = {
  "Read {reading:figure}": "Leído {reading}",
  "Counted {number:figure}": "Contado {number}",
  "{read:said}; needed {needed:said}.": "{read}; se necesita {needed}.",
  "Chosen: {choice}; needed {wanted:options}.": "Elegido: {choice}; se necesita {wanted}.",
  "Level read: {level}; needed {wanted:options}.": "Nivel leído: {level}; se necesita {wanted}.",
  "Serial number {serial} is on the job; needed {wanted:options}.":
    "El número de serie {serial} está en el trabajo; se necesita {wanted}.",
  "exactly {value:figure}": "exactamente {value}",
  "at least {low:figure}": "al menos {low}",
  "more than {low:figure}": "más de {low}",
  "at most {high:figure}": "como máximo {high}",
  "less than {high:figure}": "menos de {high}",
  "at least {low:figure} and at most {high:figure}": "al menos {low} y como máximo {high}",
  "at least {low:figure} and less than {high:figure}": "al menos {low} y menos de {high}",
  "more than {low:figure} and at most {high:figure}": "más de {low} y como máximo {high}",
  "more than {low:figure} and less than {high:figure}": "más de {low} y menos de {high}",
  "{read:said}, which does not show that it is {needed:said}.":
    "{read}, lo que no demuestra que sea {needed}.",
  "{read:said}; too near the limit: needed {needed:said}.":
    "{read}; demasiado cerca del límite: se necesita {needed}.",
  "{read:said}; met, near the limit: needed {needed:said}.":
    "{read}; cumplido, cerca del límite: se necesita {needed}.",
  "{read:said}; not met, near the limit: needed {needed:said}.":
    "{read}; no cumplido, cerca del límite: se necesita {needed}.",
  "{read:said}; needed {needed:said}. This plan counts the instrument's accuracy, which is not known.":
    "{read}; se necesita {needed}. Este plan cuenta la exactitud del instrumento, que no se conoce.",
  "Enter the instrument's accuracy, or read with one whose accuracy is known.":
    "Introduzca la exactitud del instrumento, o lea con uno cuya exactitud se conozca.",
  "Put right what causes it and measure again.": "Corrija lo que lo causa y mida de nuevo.",
  "{read:said} {what:said} cannot be worked out: {problem:said}.":
    "{read} {what} no se puede calcular: {problem}.",
  "{what:said} cannot be worked out: {problem:said}.": "{what} no se puede calcular: {problem}.",
  "The limit": "El límite",
  "The position of {name}": "La posición de {name}",
  "Supply what is missing, then answer again.": "Aporte lo que falta y responda de nuevo.",
  "It does not apply to this job.": "No se aplica a este trabajo.",
  '"{expression}" gives no number here': "«{expression}» no da aquí ningún número",
  "There is no answer yet.": "Todavía no hay respuesta.",
  "There is no answer yet; needed {needed:said}.":
    "Todavía no hay respuesta; se necesita {needed}.",
  "{sentence:said} Released by concession.": "{sentence} Liberado por concesión.",
  "Released by concession.": "Liberado por concesión.",
  "Confirmed.": "Confirmado.",
  "Photographed.": "Fotografiado.",
  "Signed.": "Firmado.",
  "Marked as not done.": "Marcado como no hecho.",
  "Do it and confirm.": "Hágalo y confirme.",
  "Chosen: {choice}": "Elegido: {choice}",
  "Chosen: {choice}.": "Elegido: {choice}.",
  "Level read: {level}": "Nivel leído: {level}",
  "Level read: {level}.": "Nivel leído: {level}.",
  "Change it to what is needed and answer again.":
    "Cámbielo a lo que se necesita y responda de nuevo.",
  "Bring the unit to the level needed and read it off again.":
    "Lleve la unidad al nivel necesario y léalo de nuevo.",
  "{done} of {all} tightened at {setting}": "{done} de {all} apretados a {setting}",
  "{done} of {all} fasteners tightened; not tightened: {which:said}.":
    "{done} de {all} fijaciones apretadas; sin apretar: {which}.",
  "{list} and more": "{list} y más",
  "Tighten every fastener of the group and tick each.":
    "Apriete todas las fijaciones del grupo y marque cada una.",
  "{name} is {stands:term}, needed {wanted:term}": "{name} está en {stands}, se necesita {wanted}",
  "{name} is not given, needed {wanted:term}": "falta {name}, se necesita {wanted}",
  "Every switch stands as needed.": "Todos los conmutadores están como se necesita.",
  "Set the switches as shown and enter what they show.":
    "Ponga los conmutadores como se muestra e introduzca lo que indican.",
  "Read {typed:figure}; the job has {expected:said}.":
    "Leído {typed}; el trabajo tiene {expected}.",
  "no unit of that number": "ninguna unidad con ese número",
  "Read {typed:figure}. {problem:said}": "Leído {typed}. {problem}",
  "Read {typed:figure}.": "Leído {typed}.",
  "Read the label again; if another unit was delivered, put that one on the job.":
    "Lea de nuevo la etiqueta; si se entregó otra unidad, ponga esa en el trabajo.",
  "Read the label again, and compare the model's rule for serial numbers.":
    "Lea de nuevo la etiqueta y compare la regla del modelo para los números de serie.",
  "Serial number {serial} is the one on the job.": "El número de serie {serial} es el del trabajo.",
  "Serial number {serial} is on the job": "El número de serie {serial} está en el trabajo",
  "Answer again.": "Responda de nuevo.",
  "{named} of {needed} photo is tied to it.": "Tiene {named} de {needed} foto.",
  "{named} of {needed} photos are tied to it.": "Tiene {named} de {needed} fotos.",
  "Take the photo and answer again with it.": "Haga la foto y responda de nuevo con ella.",
  "Take the photos and answer again with them.": "Haga las fotos y responda de nuevo con ellas.",
  "A note is asked for and there is none.": "Se pide una nota y no hay ninguna.",
  "Answer again with a note.": "Responda de nuevo con una nota.",
  "1 photo is still to arrive.": "Falta por llegar 1 foto.",
  "{count:figure} photos are still to arrive.": "Faltan por llegar {count} fotos.",
  "Let the tablet send its photos where there is signal.":
    "Deje que la tableta envíe sus fotos donde haya señal.",
} as const;
