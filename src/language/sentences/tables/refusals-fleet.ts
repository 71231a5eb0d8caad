/** Firmware levels, releases, roll-outs and update rounds: src/features, src/domain/firmware, src/domain/rounds. */
export const refusalsFleet = {
  "There is a release {level} of {model} already. Edit that one.":
    "Ya hay una versión {level} de {model}. Edite esa.",
  '"{level}" cannot be put in the order of the model\'s levels ({scheme}), so nothing could be due by it. Only semver and dotted levels without unusual words or huge numbers can.':
    "«{level}» no se puede situar en el orden de los niveles del modelo ({scheme}), así que nada podría quedar pendiente por ella. Solo pueden los niveles semver y con puntos, sin palabras raras ni números enormes.",
  "This release was withdrawn before; it stays so.": "Esta versión ya se retiró; así queda.",
  "Say from which level on, or below which.": "Indique desde qué nivel, o por debajo de cuál.",
  "It steps from {from} or later, which is not below {level} itself.":
    "Parte de {from} o posterior, que no está por debajo de la propia {level}.",
  "No level is {from} or later and below {below}.":
    "Ningún nivel es {from} o posterior y está por debajo de {below}.",
  "Some of these sites are not in your firm.":
    "Algunos de estos emplazamientos no son de su empresa.",
  "Another ring has this name or this place. Choose others.":
    "Otro anillo tiene este nombre o este puesto. Elija otros.",
  "Your firm has no rings. Add one, or set a target instead.":
    "Su empresa no tiene anillos. Añada uno, o fije un objetivo.",
  "This ring is {state:word} already.": "Este anillo ya está {state}.",
  "Only an open ring can be held.": "Solo se puede detener un anillo abierto.",
  "Every ring has to have passed before the roll-out is complete.":
    "Todos los anillos deben haber pasado antes de completar el despliegue.",
  "{ring} opened.": "{ring} se abrió.",
  "The next ring opened.": "Se abrió el anillo siguiente.",
  "There is no such release of this product model.": "No hay tal versión de este modelo.",
  "Release {level} was withdrawn on {day}": "La versión {level} se retiró el {day}",
  "{why:said}. Choose another.": "{why}. Elija otra.",
  "There is a target already; send its ETag as If-Match.":
    "Ya hay un objetivo; envíe su ETag como If-Match.",
  "{why:said} Say yourself by when.": "{why} Indique usted para cuándo.",
  "Say yourself by when.": "Indique usted para cuándo.",
  "The days for a {severity:word} release are {problem:said}.":
    "Los días para una versión {severity} son {problem}.",
  "a whole number from 0 to {most}": "un número entero de 0 a {most}",
  '"{day}" is no date; write it like 2026-03-14.':
    "«{day}» no es una fecha; escríbala como 2026-03-14.",
  "{days} days from {day} is too late a date.":
    "{days} días desde {day} es una fecha demasiado tardía.",
  "The maker's own instructions come first: isolate where they say so. Local codes and licensed practice prevail.":
    "Las instrucciones del fabricante van primero: aísle donde lo indiquen. La normativa local y el criterio de un profesional habilitado prevalecen.",
  "The release was stopped in this ring: update nothing for now.":
    "La versión se detuvo en este anillo: no actualice nada por ahora.",
  "Not installed: no firmware is due on it.": "No instalada: no tiene firmware pendiente.",
  "No firmware level was read off this unit yet; {level} is required.":
    "Aún no se ha leído ningún nivel de firmware en esta unidad; se exige {level}.",
  "{problem:said} Compare it with {level} by hand.": "{problem} Compárelo a mano con {level}.",
  "Level {level} meets the required {wanted}.": "El nivel {level} cumple el exigido {wanted}.",
  "Level {level} is below the required {wanted}":
    "El nivel {level} está por debajo del exigido {wanted}",
  "{below:said}: {days:said} past the deadline of {day}.":
    "{below}: {days} después del plazo del {day}.",
  "{below:said}: due by {day}, {left:said}.": "{below}: pendiente hasta el {day}, {left}.",
  "today is the last day": "hoy es el último día",
  "{days:said} left": "quedan {days}",
  "1 day": "1 día",
  "{count:figure} days": "{count} días",
  "{from} or above and below {below}": "{from} o superior y por debajo de {below}",
  "{from} or above": "{from} o superior",
  "below {below}": "por debajo de {below}",
  "any level": "cualquier nivel",
  "A firmware level has at most {most} characters.":
    "Un nivel de firmware tiene como máximo {most} caracteres.",
  '"{level}" is no level: {why:said}.': "«{level}» no es un nivel: {why}.",
  '"{level}" is no dotted level: it reads like 1.4, v2.0.7 or 1.4.2.118.':
    "«{level}» no es un nivel con puntos: se escribe como 1.4, v2.0.7 o 1.4.2.118.",
  '"{level}" is no SemVer level: {why:said}.': "«{level}» no es un nivel SemVer: {why}.",
  "it holds letters, digits and . + ~ - : only": "solo lleva letras, cifras y . + ~ - :",
  "what stands before the colon is a whole number":
    "lo que va antes de los dos puntos es un número entero",
  "its main part holds at least one digit": "su parte principal lleva al menos una cifra",
  "a revision follows the last hyphen": "tras el último guion va una revisión",
  "a revision holds no colon": "una revisión no lleva dos puntos",
  "it has no leading v (clause 2)": "no lleva v delante (cláusula 2)",
  "its numbers have no leading zeros (clause 2)":
    "sus números no llevan ceros delante (cláusula 2)",
  "it has three numbers, as in 1.4.2 (clause 2)": "tiene tres números, como 1.4.2 (cláusula 2)",
  "it reads like 1.4.2, 1.4.2-rc.1 or 1.4.2+build.7 (clauses 2, 9, 10)":
    "se escribe como 1.4.2, 1.4.2-rc.1 o 1.4.2+build.7 (cláusulas 2, 9, 10)",
  "{model} has {count} levels; at most {most} fit.":
    "{model} tiene {count} niveles; caben como máximo {most}.",
  "{unit}: there is no model {model}.": "{unit}: no hay modelo {model}.",
  "{one} does not go with {other} at {level}: {why:said}.":
    "{one} no va con {other} a {level}: {why}.",
  "{unit} (stays at {level})": "{unit} (se queda en {level})",
  "{unit} ({from} to {to})": "{unit} (de {from} a {to})",
  "no release leads there": "ninguna versión lleva hasta ahí",
  "Choose another target for one of them, or ask the maker for the order it supports.":
    "Elija otro objetivo para uno de ellos, o pregunte al fabricante qué orden admite.",
  "There is no safe order for {units:said}: {why:said}. {wayOut:said}":
    "No hay un orden seguro para {units}: {why}. {wayOut}",
  "{model} {level} is withdrawn": "{model} {level} está retirada",
  "{model} {level} is installed over {from:said} only":
    "{model} {level} solo se instala sobre {from}",
  "{model} at {level} needs {other} at {wanted:said}":
    "{model} en {level} necesita {other} en {wanted}",
  "{failed} of {all} updates failed": "fallaron {failed} de {all} actualizaciones",
  "with 95 % confidence at least {share} of them do":
    "con un 95 % de confianza falla al menos {share}",
  "{failed:said}: {share:said}, more than the {most} borne.":
    "{failed}: {share}, más del {most} admitido.",
  "{done} of {all} units are updated; {why:said}.":
    "{done} de {all} unidades están actualizadas; {why}.",
  "{done} of {all} days": "{done} de {all} días",
  "Enough units are updated since {day}; {why:said}.":
    "Hay bastantes unidades actualizadas desde el {day}; {why}.",
  "more than the {most} borne, though chance may be why":
    "más del {most} admitido, aunque puede ser azar",
  "{standing:said}, {failed:said}: {share:said}. Update more units.":
    "{standing}, {failed}: {share}. Actualice más unidades.",
  "{standing:said}; the next ring may open.": "{standing}; el anillo siguiente puede abrirse.",
  "{count} units are too many; at most {most} are ordered.":
    "{count} unidades son demasiadas; se ordenan como máximo {most}.",
  "No order was proven or ruled out among {count} combinations":
    "No se demostró ni se descartó ningún orden entre {count} combinaciones",
  "{why:said}; set nearer targets and update in two visits, or ask the maker.":
    "{why}; fije objetivos más cercanos y actualice en dos visitas, o pregunte al fabricante.",
  "Every unit is at its target.": "Cada unidad está en su objetivo.",
  "{unit} from {from} to {to}": "{unit} de {from} a {to}",
  "{unit} from {from} to {to}, then {more:said}": "{unit} de {from} a {to}, después {more}",
  "1 update: {steps:said}.": "1 actualización: {steps}.",
  "{count:figure} updates: {steps:said}.": "{count} actualizaciones: {steps}.",
  "{site}: no crew {lack:said}; plan one that does.":
    "{site}: ningún equipo {lack}; planifique uno que sí.",
  "has {skill}": "tiene {skill}",
  "is planned": "está planificado",
  "{site}: no such crew works when the site can be visited; agree another time.":
    "{site}: ningún equipo así trabaja cuando se puede visitar el emplazamiento; acuerde otra hora.",
  "{site}: its load of {load} is more than any van takes; split it.":
    "{site}: su carga de {load} es más de lo que lleva cualquier furgoneta; divídala.",
  "{site}: even alone it does not fit a crew's hours; start nearer or split the work.":
    "{site}: ni siquiera solo cabe en las horas de un equipo; empiece más cerca o divida el trabajo.",
  "{site}: the rounds are full; add a crew day, or plan it for another day.":
    "{site}: las rondas están llenas; añada un día de equipo, o planifíquelo para otro día.",
  "{visits:said} in {rounds:said}, {minutes} minutes and {distance} km of driving.":
    "{visits} en {rounds}, {minutes} minutos y {distance} km de conducción.",
  "{visits:said} left out.": "{visits} sin incluir.",
  "1 visit": "1 visita",
  "{count:figure} visits": "{count} visitas",
  "1 round": "1 ronda",
  "{count:figure} rounds": "{count} rondas",
  "Left out: {label}": "Sin incluir: {label}",
  "{count:figure} visits; at most {most} fit.": "{count} visitas; caben como máximo {most}.",
  "{count} crew days; at most {most} fit.": "{count} días de equipo; caben como máximo {most}.",
  "The travel table has as many rows as columns and no negative entry.":
    "La tabla de viajes tiene tantas filas como columnas y ninguna entrada negativa.",
  "{who}: there is no such place.": "{who}: no hay tal lugar.",
  "{who}: the working hours end before they start.": "{who}: la jornada termina antes de empezar.",
  "{who}: the minutes of work are below 0.": "{who}: los minutos de trabajo son menos de 0.",
  "{who}: the load is below 0.": "{who}: la carga es menos de 0.",
  "{who}: the priority is below 1.": "{who}: la prioridad es menos de 1.",
  "{who}: a window ends before it starts.": "{who}: una franja termina antes de empezar.",
  "{round} is {state:word} already. Plan rounds anew.":
    "{round} ya está {state}. Planifique las rondas de nuevo.",
  "No free hours: away or booked.": "Sin horas libres: ausente o con reserva.",
  "Rounds are being planned already. Try again in a few seconds.":
    "Ya se están planificando rondas. Inténtelo de nuevo en unos segundos.",
  '{name} does not hold "{kind}".': "{name} no tiene «{kind}».",
  "ended on {day}": "terminó el {day}",
  "begins only on {day}": "empieza el {day}",
  '{person}\'s "{kind}" {when:said}; it is needed on {day}.':
    "«{kind}» de {person} {when}; hace falta el {day}.",
  'Nobody in {crew} holds "{kind}" on {day}': "Nadie de {crew} tiene «{kind}» el {day}",
  'Nobody in {crew} holds "{kind}" on {day}: {person}\'s ended on {end}.':
    "Nadie de {crew} tiene «{kind}» el {day}: la de {person} terminó el {end}.",
  'Nobody in {crew} holds "{kind}" on {day}: {person}\'s begins only on {start}.':
    "Nadie de {crew} tiene «{kind}» el {day}: la de {person} empieza el {start}.",
  'Nobody in {crew} holds "{kind}" on {day}.': "Nadie de {crew} tiene «{kind}» el {day}.",
  "Counted by Regulation (EEC, Euratom) No 1182/71, Articles 2 and 3; holidays: date-holidays (CC BY 3.0); weekends: Unicode CLDR.":
    "Contado según el Reglamento (CEE, Euratom) n.º 1182/71, artículos 2 y 3; festivos: date-holidays (CC BY 3.0); fines de semana: Unicode CLDR.",
  "No release is due on such a unit of your firm.":
    "Ninguna versión está pendiente en tal unidad de su empresa.",
  "This failed update is on record already.": "Esta actualización fallida ya está registrada.",
  "Firmware update left the unit at {level}": "La actualización dejó la unidad en {level}",
  "It refers to something your firm does not have.": "Se refiere a algo que su empresa no tiene.",
} as const;
