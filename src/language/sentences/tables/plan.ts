/** What is wrong with a plan, and what two versions differ in: src/domain/plan. */
export const plan = {
  "The plan has {count} items; at most {most} fit a job.":
    "El plan tiene {count} puntos; en un trabajo caben como máximo {most}.",
  '"{id}" is used twice.': "«{id}» se usa dos veces.",
  "No item is a hold point, so the plan would close any job.":
    "Ningún punto es punto de espera, así que el plan cerraría cualquier trabajo.",
  "Every hold point has a condition: where none applies, the plan would close any job.":
    "Todos los puntos de espera tienen una condición: donde no se aplique ninguno, el plan cerraría cualquier trabajo.",
  "An item cannot come after itself.": "Un punto no puede ir después de sí mismo.",
  'There is no item "{id}".': "No hay ningún punto «{id}».",
  "These items wait for each other: {circle}.": "Estos puntos se esperan unos a otros: {circle}.",
  'These items wait for each other: {circle}. "{item}" is done live, so it waits for the dead hold points before it.':
    "Estos puntos se esperan unos a otros: {circle}. «{item}» se hace con tensión, así que espera a los puntos de espera sin tensión anteriores.",
  '{told:said} "{item}" is done live, so it waits for the dead hold points before it.':
    "{told} «{item}» se hace con tensión, así que espera a los puntos de espera sin tensión anteriores.",
  '"{item}" is done live, so it waits for the dead hold points before it.':
    "«{item}» se hace con tensión, así que espera a los puntos de espera sin tensión anteriores.",
  '"{expression}" is never true, so the item is never asked.':
    "«{expression}» nunca es verdad, así que el punto nunca se pide.",
  'It needs "{id}", which is never asked.': "Necesita «{id}», que nunca se pide.",
  "the kind of item": "la clase de punto",
  "the title": "el título",
  "what to do": "qué hacer",
  "the reason": "el motivo",
  "the cautions": "las precauciones",
  "what clears a failure": "qué resuelve un fallo",
  "the hold point": "el punto de espera",
  "for what it is asked": "para qué se pide",
  "when it applies": "cuándo se aplica",
  "what comes before it": "qué va antes",
  "what an answer out of sequence does": "qué hace una respuesta fuera de orden",
  "the supply": "el suministro",
  "the breakers": "los interruptores",
  "the waiting time": "el tiempo de espera",
  "what a failure makes repeat": "qué hace repetir un fallo",
  "the evidence": "las pruebas",
  "the instrument": "el instrumento",
  "the unit": "la unidad",
  "what is accepted": "lo que se acepta",
  "how uncertainty counts": "cómo cuenta la incertidumbre",
  "the number of fasteners": "el número de fijaciones",
  "the number of photos": "el número de fotos",
  "what can be chosen": "lo que se puede elegir",
  "photo {number}": "foto {number}",
  '"{title}": {name:said} are written otherwise.': "«{title}»: {name} están escritas de otro modo.",
  '"{title}": {name:said} is written otherwise.': "«{title}»: {name} está escrito de otro modo.",
  '"{title}": {name:said} is {now:said} instead of {before:said}.':
    "«{title}»: {name} es {now} en vez de {before}.",
  "{title:said}: {name:said} are written otherwise.":
    "{title}: {name} están escritas de otro modo.",
  "{title:said}: {name:said} is written otherwise.": "{title}: {name} está escrito de otro modo.",
  "{title:said}: {name:said} is {now:said} instead of {before:said}.":
    "{title}: {name} es {now} en vez de {before}.",
  '"{title}" is now a hold point: the job stays open until it is met or conceded.':
    "«{title}» es ahora un punto de espera: el trabajo queda abierto hasta que se cumpla o se conceda.",
  '"{title}" is no longer a hold point: the job may be closed without it.':
    "«{title}» ya no es un punto de espera: el trabajo puede cerrarse sin él.",
  '"{title}" is now safety-critical: nobody can concede it.':
    "«{title}» es ahora crítico para la seguridad: nadie puede concederlo.",
  '"{title}" is no longer safety-critical: a manager may concede it.':
    "«{title}» ya no es crítico para la seguridad: un responsable puede concederlo.",
  '"{title}" has more cautions than before.': "«{title}» tiene más precauciones que antes.",
  '"{title}" has fewer cautions than before.': "«{title}» tiene menos precauciones que antes.",
  'The pick list no longer has "{name}".': "La lista de material ya no tiene «{name}».",
  "The pick list now has {line}.": "La lista de material tiene ahora {line}.",
  'What the pick list says of "{name}" has changed.':
    "Cambió lo que la lista de material dice de «{name}».",
  "The pick list has {line}, where it had {before}.":
    "La lista de material tiene {line}, donde tenía {before}.",
  'The plan "{before}" is now called "{title}".': "El plan «{before}» se llama ahora «{title}».",
  "Unless an item says otherwise, uncertainty counts as {now:word}, not as {before:word}.":
    "Salvo que un punto diga otra cosa, la incertidumbre cuenta como {now}, no como {before}.",
  "The plan no longer reads {name} of the product model.": "El plan ya no lee {name} del modelo.",
  "Product models need the attribute {name}, a {kind:term}.":
    "Los modelos necesitan el atributo {name} ({kind}).",
  "The attribute {name} of product models is a {kind:term} instead of a {before:term}.":
    "El atributo {name} de los modelos es {kind} en vez de {before}.",
  "what meets {expression}": "lo que cumple {expression}",
  "1 time": "1 vez",
  "{count:figure} times": "{count} veces",
  "once for every {kind:term}": "una vez por cada {kind}",
  "once for every unit": "una vez por cada unidad",
  "once for each of {groups}": "una vez por cada uno de {groups}",
  "none named": "ninguno indicado",
  "the plan's rule": "la regla del plan",
  "not said": "sin indicar",
  "at least {least} s and at most {most} s": "al menos {least} s y como máximo {most} s",
  "at least {least} s after {items}": "al menos {least} s después de {items}",
  "at least {least} s and at most {most} s after {items}":
    "al menos {least} s y como máximo {most} s después de {items}",
  "with {states}": "con {states}",
  "leaving {states}": "dejando {states}",
  "1 photo": "1 foto",
  "{count:figure} photos": "{count} fotos",
  "a note": "una nota",
  'after "{title}"': "después de «{title}»",
  '"{before}" is now called "{title}".': "«{before}» se llama ahora «{title}».",
  'The stage "{title}" is new.': "La etapa «{title}» es nueva.",
  'The stage "{title}" is gone.': "La etapa «{title}» ya no está.",
  'The stage "{title}" now comes {place:said}.': "La etapa «{title}» va ahora {place}.",
  'The stage "{before}" is now called "{title}".': "La etapa «{before}» se llama ahora «{title}».",
  "a hold point that nobody can concede": "un punto de espera que nadie puede conceder",
  "a hold point": "un punto de espera",
  "no hold point": "ningún punto de espera",
  "is new in": "es nuevo en",
  "is gone from": "ya no está en",
  '"{title}" is new in "{stage}"; it is {what:said}.':
    "«{title}» es nuevo en «{stage}»; es {what}.",
  '"{title}" is gone from "{stage}"; it was {what:said}.':
    "«{title}» ya no está en «{stage}»; era {what}.",
  '"{title}" {verb:said} "{stage}"; it {being} {what:said}.':
    "«{title}» {verb} «{stage}»; {being} {what}.",
  '"{title}" now comes {place:said} in "{stage}".': "«{title}» va ahora {place} en «{stage}».",
  '"{title}" now comes {place:said} in "{stage}", no longer in "{before}".':
    "«{title}» va ahora {place} en «{stage}», ya no en «{before}».",
  "As found.": "Como se encontró.",
  "The plan has no stage {id}.": "El plan no tiene etapa {id}.",
  "The plan has no item {id}.": "El plan no tiene punto {id}.",
  "Another item is named {id}.": "Otro punto se llama {id}.",
  "The plan has no such stage.": "El plan no tiene tal etapa.",
  'The expression "{text}" cannot be used: {reason:said}.':
    "La expresión «{text}» no se puede usar: {reason}.",
  "it reads more than {most} names": "lee más de {most} nombres",
  "{name} is not a name plans know": "{name} no es un nombre que los planes conozcan",
  "{root}.{field} is not a name plans know":
    "{root}.{field} no es un nombre que los planes conozcan",
  "{root} is read part by part, such as {part}.{known}":
    "{root} se lee parte por parte, por ejemplo {part}.{known}",
  "value is known in the expression of a limit only":
    "value solo se conoce en la expresión de un límite",
  "{name} is no attribute this plan declares, or the item is not asked per unit":
    "{name} no es un atributo que este plan declare, o el punto no se pide por unidad",
  "{name} is not known: an item asked per unit has serial, kind, hardwareRevision and position":
    "{name} no se conoce: un punto que se pide por unidad tiene serial, kind, hardwareRevision y position",
  "{name} is not known: a site has supply, region and country":
    "{name} no se conoce: un emplazamiento tiene supply, region y country",
  "{name} is not known: count has batteryPack, inverter, gateway, meter and isolator":
    "{name} no se conoce: count tiene batteryPack, inverter, gateway, meter e isolator",
  "{name} is no other item with a plain answer for the same subject; readings has them all":
    "{name} no es otro punto con una respuesta simple para lo mismo; readings las tiene todas",
  "{name} is no other item with a number that is asked several times":
    "{name} no es otro punto con un número que se pida varias veces",
  '"{field}" is asked of something that has no parts':
    "se pide «{field}» de algo que no tiene partes",
  '"{what}" has no place in a plan': "«{what}» no tiene lugar en un plan",
  "{value} is too large": "{value} es demasiado grande",
  "null, bytes and unsigned numbers have no place in a plan":
    "null, bytes y números sin signo no tienen lugar en un plan",
  "there is no function {name}() for plans": "no hay función {name}() para los planes",
  "there is no .{name}() for plans": "no hay .{name}() para los planes",
  "it gives {given:said}, where {needed:said} is needed": "da {given}, donde se necesita {needed}",
  "{root}.{field} is not known here": "{root}.{field} no se conoce aquí",
  "a number": "un número",
  "true or false": "verdadero o falso",
  "a text": "un texto",
  "a list of numbers": "una lista de números",
  "a list of texts": "una lista de textos",
  "{operator} does not go between {left:said} and {right:said}":
    "{operator} no va entre {left} y {right}",
  "{name}() does not take nothing": "{name}() necesita algo",
  "{name}() does not take {given}": "{name}() no admite {given}",
  "it is too long or too deep": "es demasiado larga o profunda",
  '"{id}" is a word of the expressions; call the item otherwise.':
    "«{id}» es una palabra de las expresiones; llame al punto de otro modo.",
  '"{name}" is here twice.': "«{name}» está aquí dos veces.",
  "write {meant}": "escriba {meant}",
  "write it as V, mΩ, N·m or mm": "escríbala como V, mΩ, N·m o mm",
  '"{unit}" is not the symbol of a unit: {advice:said}.':
    "«{unit}» no es el símbolo de una unidad: {advice}.",
  'A wrench is set to a torque; "{unit}" is none.':
    "Una llave se ajusta a un par; «{unit}» no lo es.",
  "No time is both {times:said}.": "Ningún tiempo es a la vez {times}.",
  "must be lower-case letters, digits and _, from a letter":
    "deben ser minúsculas, cifras y _, desde una letra",
  "must be lower-case letters, digits and _": "deben ser minúsculas, cifras y _",
  "No count is below {high}.": "Ningún recuento es menor que {high}.",
  "No value lies between {low} and {high}.": "Ningún valor está entre {low} y {high}.",
  "No whole number lies between {low} and {high}.":
    "Ningún número entero está entre {low} y {high}.",
  '"{value}" is not among the options.': "«{value}» no está entre las opciones.",
  "A limit names at least one bound": "Un límite nombra al menos un extremo",
  "A limit takes min or above, not both": "Un límite admite min o above, no ambos",
  "A limit takes max or below, not both": "Un límite admite max o below, no ambos",
  "A plan reads at most {most} attributes": "Un plan lee como máximo {most} atributos",
  'No item leaves breaker "{breaker}" open or closed, so it is never known.':
    "Ningún punto deja el interruptor «{breaker}» abierto o cerrado, así que nunca se sabe.",
  'No item leaves breaker "{breaker}" {state:word}.':
    "Ningún punto deja el interruptor «{breaker}» {state}.",
  'Breaker "{breaker}" is left {state:word} only by what cannot be done before':
    "El interruptor «{breaker}» queda {state} solo por lo que no se puede hacer antes",
  'Breaker "{breaker}" is left {state:word} only by what cannot be done before: {ways}.':
    "El interruptor «{breaker}» queda {state} solo por lo que no se puede hacer antes: {ways}.",
  'It is done dead after "{before}", live, with no breaker moved between.':
    "Se hace sin tensión después de «{before}», con tensión, sin mover ningún interruptor en medio.",
  "not known": "no se sabe",
  'In the plan\'s order "{breaker}" is {known:term} here; needed {state:word}.':
    "En el orden del plan «{breaker}» está aquí: {known}; se necesita {state}.",
  'Whatever leaves "{breaker}" {state:word} has a condition and may not apply.':
    "Lo que deja «{breaker}» {state} tiene una condición y puede no aplicarse.",
  'A failure repeats "{id}", which stands later in the plan.':
    "Un fallo repite «{id}», que va después en el plan.",
  "Name at least one breaker": "Indique al menos un interruptor",
  "An item names at most {most} breakers": "Un punto nombra como máximo {most} interruptores",
  "A plan is at most {most} levels deep.":
    "Un plan tiene como máximo {most} niveles de profundidad.",
  '"__proto__" is not a field of a plan.': "«__proto__» no es un campo de un plan.",
  "A plan holds at most {values} values and {characters} characters.":
    "Un plan lleva como máximo {values} valores y {characters} caracteres.",
  '"{key}" is not a field here.': "«{key}» no es aquí un campo.",
  "This is missing; it is a {kind:term}.": "Esto falta; es: {kind}.",
  "No class of instrument is named, so its calibration will not be looked at.":
    "No se indica ninguna clase de instrumento, así que no se mirará su calibración.",
  '"{class}" is none of the usual classes of instruments; is it spelt right?':
    "«{class}» no es una de las clases usuales de instrumentos; ¿está bien escrita?",
  'Whoever works reads "needed {expression}": say it in words.':
    "Quien trabaja lee «se necesita {expression}»: dígalo con palabras.",
  '"{expression}" is always true.': "«{expression}» siempre es verdad.",
  'It needs "{id}", which stands later in the plan.': "Necesita «{id}», que va después en el plan.",
} as const;
