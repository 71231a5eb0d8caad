/** What cannot be read as an answer or as a quantity: src/domain/acceptance, src/domain/quantities. */
export const readings = {
  "The value must be an object.": "El valor debe ser un objeto.",
  '"{title}" takes {taken:said}.': "«{title}» admite {taken}.",
  "no value": "ningún valor",
  "{a} and {b}": "{a} y {b}",
  "Say whether it is done: true or false.": "Indique si está hecho: true o false.",
  "Choose one of: {options}.": "Elija una de: {options}.",
  "Type or scan what stands on the unit, at most 200 characters.":
    "Escriba o escanee lo que figura en la unidad, como máximo 200 caracteres.",
  "A count is a whole number from 0 to {most}.": "Un recuento es un número entero de 0 a {most}.",
  "List the fasteners tightened, from 1 to {points}.":
    "Indique las fijaciones apretadas, de 1 a {points}.",
  "There is no fastener {point}; they run from 1 to {points}.":
    "No hay fijación {point}; van de 1 a {points}.",
  "There is no fastener of that name; they run from 1 to {points}.":
    "No hay ninguna fijación con ese nombre; van de 1 a {points}.",
  "Fastener {point} is listed twice.": "La fijación {point} figura dos veces.",
  "Give what the wrench was set to, in {unit}.": "Indique a qué se ajustó la llave, en {unit}.",
  "Give the position of each switch by its name.":
    "Indique la posición de cada conmutador por su nombre.",
  'There is no switch "{name}" here; there are {known}.':
    "Aquí no hay ningún conmutador «{name}»; hay {known}.",
  "A position is a text of at most 60 characters.":
    "Una posición es un texto de 60 caracteres como máximo.",
  "Write the name of who signs, at most 120 characters.":
    "Escriba el nombre de quien firma, como máximo 120 caracteres.",
  "The signature is the SHA-256 of its picture.": "La firma es el SHA-256 de su imagen.",
  "Name the unit, such as {unit}.": "Indique la unidad, por ejemplo {unit}.",
  '"{unit}" is no unit; this is read in {wanted}.':
    "«{unit}» no es una unidad; esto se lee en {wanted}.",
  "{symbol} does not measure this; it is read in {unit} or a unit like it.":
    "{symbol} no mide esto; se lee en {unit} o en una unidad de la misma clase.",
  "Give the reading as a number, such as 2.75.": "Dé la lectura como número, por ejemplo 2.75.",
  "The number says {one} and the unit says {other}; give one of them.":
    "El número dice {one} y la unidad dice {other}; dé una de las dos.",
  "A reading has at most {most} digits.": "Una lectura tiene como máximo {most} cifras.",
  '"{unit}" is not a unit this tool knows.':
    "«{unit}» no es una unidad que esta herramienta conozca.",
  "The value must be a finite number.": "El valor debe ser un número finito.",
  "{value} {from} is too large to be given in {to}.":
    "{value} {from} es demasiado grande para darse en {to}.",
  '"{text}" is not a decimal number.': "«{text}» no es un número decimal.",
  "{from} is a unit of {one:word} and {to} one of {other:word}":
    "{from} es una unidad de {one} y {to} una de {other}",
  "{quantities:said}: they do not convert into each other.":
    "{quantities}: no se convierten una en otra.",
  "has a space inside": "tiene un espacio dentro",
  "has more than one point or comma": "tiene más de un punto o coma",
  "has no digits": "no tiene cifras",
  '"{text}" could be {plain} or {decimal}: write it as {plain} or as {decimal}.':
    "«{text}» podría ser {plain} o {decimal}: escríbalo como {plain} o como {decimal}.",
  '"{token}" {why:said}: write digits with at most one decimal point, such as 1500.5.':
    "«{token}» {why}: escriba cifras con un solo punto decimal, por ejemplo 1500.5.",
  "The number is beyond what any instrument reads: check it and its unit.":
    "El número supera lo que lee cualquier instrumento: compruebe el número y su unidad.",
  "There is no number: type the reading and its unit.":
    "No hay número: escriba la lectura y su unidad.",
  "A reading has at most {most} characters: type only number and unit.":
    "Una lectura tiene como máximo {most} caracteres: escriba solo número y unidad.",
  '"{text}" is an over-range display: write > and the top of the range, such as >999 MΩ.':
    "«{text}» es una indicación de fuera de rango: escriba > y el tope del rango, por ejemplo >999 MΩ.",
  '"{text}" does not start with a number: type the digits first, such as 2.75 N·m.':
    "«{text}» no empieza por un número: escriba primero las cifras, por ejemplo 2.75 N·m.",
  '"{text}" is a second number: type one reading at a time, without spaces.':
    "«{text}» es un segundo número: escriba una lectura cada vez, sin espacios.",
  "{unit} is a unit of {measured:word}; what is asked for is {quantity:word}.":
    "{unit} es una unidad de {measured}; lo que se pide es {quantity}.",
  "write halves to 64ths, such as 1 3/8, or a decimal":
    "escriba de medios a 64 avos, por ejemplo 1 3/8, o un decimal",
  '"{text}" is not a fraction of a tape measure: {advice:said}.':
    "«{text}» no es una fracción de cinta métrica: {advice}.",
  '"{text}": inches after feet stay below 12.':
    "«{text}»: las pulgadas tras los pies son menos de 12.",
  '"{text}" is not a length: write it like 12\' 6 1/2".':
    "«{text}» no es una longitud: escríbala así: 12' 6 1/2\".",
  '"{text}" {why:said}.': "«{text}» {why}.",
  "could be milliohm or megohm: write mΩ or mOhm for milli, MΩ or MOhm for mega":
    "podría ser miliohmio o megaohmio: escriba mΩ o mOhm para mili, MΩ o MOhm para mega",
  "could be degrees, coulombs or a charge rate: write °C":
    "podrían ser grados, culombios o un régimen de carga: escriba °C",
  "could be degrees or a charge rate: write °C":
    "podrían ser grados o un régimen de carga: escriba °C",
  "could be degrees or farads: write °F": "podrían ser grados o faradios: escriba °F",
  "could be degrees or feet: write °F or ft": "podrían ser grados o pies: escriba °F o ft",
  "does not say which degrees: write °C or °F": "no dice qué grados: escriba °C o °F",
  "could be metres or a million: write m or MΩ": "podrían ser metros o un millón: escriba m o MΩ",
  "could be kelvin or a thousand: write K or kΩ": "podría ser kelvin o mil: escriba K o kΩ",
  "is the siemens: write s for seconds": "es el siemens: escriba s para segundos",
  "could be milliseconds or megasiemens: write ms":
    "podrían ser milisegundos o megasiemens: escriba ms",
  "could be milliseconds or a million seconds: write ms":
    "podrían ser milisegundos o un millón de segundos: escriba ms",
  "is a million volts: write mV for millivolts":
    "es un millón de voltios: escriba mV para milivoltios",
  "is a million amperes: write mA for milliamperes":
    "es un millón de amperios: escriba mA para miliamperios",
  "is a force: write lbf·ft or lbf·in for a torque, lb for a mass":
    "es una fuerza: escriba lbf·ft o lbf·in para un par, lb para una masa",
  "is not kept by this tool: write the length in mm or m":
    "no la guarda esta herramienta: escriba la longitud en mm o m",
  "There is no unit.": "No hay unidad.",
} as const;
