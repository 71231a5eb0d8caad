/** What keeps an instrument from counting: src/domain/acceptance. */
export const instruments = {
  "{reference} is a {class:term}; this is read with a {wanted:term}.":
    "{reference} es: {class}; esto se lee con: {wanted}.",
  "Read again with a {class:term}.": "Lea de nuevo con: {class}.",
  "{reference} was retired on {day}.": "{reference} se retiró el {day}.",
  "{reference} had no calibration on {day}.": "{reference} no tenía calibración el {day}.",
  "{reference} failed its calibration of {day}.": "{reference} no pasó su calibración del {day}.",
  "{reference} was out of calibration: due {due}, read on {day}.":
    "{reference} tenía la calibración vencida: vencía el {due}, leído el {day}.",
  "Read again with an instrument in calibration, or enter the calibration it has.":
    "Lea de nuevo con un instrumento con calibración vigente, o introduzca la que tiene.",
  "{day} at {time}": "{day} a las {time}",
  "instrument later found out of tolerance ({when:said})":
    "instrumento hallado después fuera de tolerancia ({when})",
  "instrument later found overloaded ({when:said}) and not rechecked before this reading":
    "instrumento hallado después sobrecargado ({when}) y sin comprobar de nuevo antes de esta lectura",
  "instrument later found dropped ({when:said}) and not rechecked before this reading":
    "instrumento que se cayó ({when}) y no se comprobó de nuevo antes de esta lectura",
  "was overloaded": "se sobrecargó",
  "was dropped": "se cayó",
  "failed its recheck": "no pasó su comprobación",
  "{reference} {happened:said} on {when:said} and had passed no recheck or later calibration since.":
    "{reference} {happened} el {when} y desde entonces no había pasado comprobación ni calibración.",
  "Read again with a sound instrument, or enter the recheck or calibration that it passed.":
    "Lea de nuevo con un instrumento en buen estado, o introduzca la comprobación o calibración " +
    "que pasó.",
  "Name the {class:term} that was used, or read again with one.":
    "Indique el instrumento que se usó ({class}), o lea de nuevo con uno.",
  "No instrument is named; this is read with a {class:term}.":
    "No se indica ningún instrumento; esto se lee con: {class}.",
  "The instrument named is not one of the firm's.": "El instrumento indicado no es de la empresa.",
  "{reference} was due for calibration after {interval} cycles; this makes {done}.":
    "{reference} debía calibrarse tras {interval} ciclos; con este van {done}.",
  "Tighten again with a tool in calibration, or enter the calibration that it had.":
    "Apriete de nuevo con una herramienta calibrada, o introduzca la calibración que tenía.",
  "±{stated} % is stated; {edition} ({certainty:word}) permits ±{percent} % for type {type} class {class}.":
    "Se declara ±{stated} %; {edition} ({certainty}) permite ±{percent} % para el tipo {type} " +
    "clase {class}.",
  "±{stated} % is stated; {edition} ({certainty:word}) permits ±{percent} % for type {type} class {class} above {split} N·m.":
    "Se declara ±{stated} %; {edition} ({certainty}) permite ±{percent} % para el tipo {type} " +
    "clase {class} por encima de {split} N·m.",
  "±{stated} % is stated; {edition} ({certainty:word}) permits ±{percent} % for type {type} class {class} up to {split} N·m.":
    "Se declara ±{stated} %; {edition} ({certainty}) permite ±{percent} % para el tipo {type} " +
    "clase {class} hasta {split} N·m.",
} as const;
