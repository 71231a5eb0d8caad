/** What is wrong with a field: schemas of src/features and src/web, and what the reader of schemas says itself. */
export const fields = {
  "Invalid input": "Dato no válido",
  "Invalid input: expected {expected:term}, received {received:term}":
    "Dato no válido: se esperaba {expected}, se recibió {received}",
  "Invalid input: expected {expected}": "Dato no válido: se esperaba {expected}",
  "Invalid input: more than one option matched": "Dato no válido: coincide más de una opción",
  "Invalid option: expected one of {options}": "Opción no válida: se esperaba una de {options}",
  "Too big: expected {origin:term} to have exactly {most} {unit:term}":
    "Demasiado: se esperaba {origin} con exactamente {most} {unit}",
  "Too big: expected {origin:term} to have <={most} {unit:term}":
    "Demasiado: se esperaba {origin} con {most} {unit} como máximo",
  "Too big: expected {origin:term} to have <{most} {unit:term}":
    "Demasiado: se esperaba {origin} con menos de {most} {unit}",
  "Too big: expected {origin:term} to be <={most}":
    "Demasiado grande: se esperaba {origin} de {most} como máximo",
  "Too big: expected {origin:term} to be <{most}":
    "Demasiado grande: se esperaba {origin} menor que {most}",
  "Too small: expected {origin:term} to have exactly {least} {unit:term}":
    "Demasiado poco: se esperaba {origin} con exactamente {least} {unit}",
  "Too small: expected {origin:term} to have >={least} {unit:term}":
    "Demasiado poco: se esperaba {origin} con {least} {unit} como mínimo",
  "Too small: expected {origin:term} to have >{least} {unit:term}":
    "Demasiado poco: se esperaba {origin} con más de {least} {unit}",
  "Too small: expected {origin:term} to be >={least}":
    "Demasiado pequeño: se esperaba {origin} de {least} como mínimo",
  "Too small: expected {origin:term} to be >{least}":
    "Demasiado pequeño: se esperaba {origin} mayor que {least}",
  "Invalid email address": "Dirección de correo no válida",
  "Invalid URL": "Dirección web no válida",
  "Invalid UUID": "UUID no válido",
  "Invalid GUID": "GUID no válido",
  "Invalid ISO datetime": "Fecha y hora no válidas",
  "Invalid ISO date": "Fecha no válida",
  "Invalid ISO time": "Hora no válida",
  'Invalid string: must start with "{start}"': "Texto no válido: debe empezar por «{start}»",
  'Invalid string: must end with "{end}"': "Texto no válido: debe terminar en «{end}»",
  'Invalid string: must include "{part}"': "Texto no válido: debe contener «{part}»",
  "Invalid string: must match pattern {pattern}":
    "Texto no válido: debe seguir el patrón {pattern}",
  "Invalid number: must be a multiple of {divisor}":
    "Número no válido: debe ser múltiplo de {divisor}",
  "Unrecognized key: {key}": "Campo desconocido: {key}",
  "Unrecognized keys: {keys}": "Campos desconocidos: {keys}",
  "Invalid key in {origin}": "Clave no válida en {origin}",
  "Invalid value in {origin}": "Valor no válido en {origin}",
  "is not valid": "no es válido",
  "must not be empty": "no debe estar vacío",
  "must be one line without control characters": "debe ser una línea sin caracteres de control",
  "must not hold control characters": "no debe contener caracteres de control",
  "must be well-formed Unicode": "debe ser Unicode bien formado",
  "must be 8 to 128 visible ASCII characters": "debe tener de 8 a 128 caracteres ASCII visibles",
  "must be a month such as 2026-11": "debe ser un mes, por ejemplo 2026-11",
  "must lie in the years 2000 to 2199": "debe estar entre los años 2000 y 2199",
  "give from and to, or startsAt and endsAt, and not both":
    "indique from y to, o startsAt y endsAt, y no ambos",
  "lies more than a day in the future; check the clock":
    "está más de un día en el futuro; compruebe el reloj",
  "stands twice in this batch": "figura dos veces en este lote",
  "lies in the past": "está en el pasado",
  "lies in the future": "está en el futuro",
  "is in the future": "está en el futuro",
  "a key is for something: name at least one scope":
    "una clave sirve para algo: indique al menos un alcance",
  "must not name a scope twice": "no debe nombrar un alcance dos veces",
  "is not installed at the bank's site: record that first":
    "no está instalado en el emplazamiento del banco: regístrelo antes",
  "is a {kind:word}, not a battery pack": "no es un paquete de baterías, sino: {kind}",
  "belongs to another bank of the site: take it out there first":
    "pertenece a otro banco del emplazamiento: sáquelo antes de él",
  "must not name a pack twice": "no debe nombrar un paquete dos veces",
  "must not use a position twice": "no debe usar un puesto dos veces",
  "is needed": "hace falta",
  "is not in the map, which has {known}": "no está en el mapa, que tiene {known}",
  "is over already; name a day from today on": "ya pasó; indique un día a partir de hoy",
  "is the name of another crew": "es el nombre de otro equipo de trabajo",
  "is not an active installer of your firm": "no es un instalador activo de su empresa",
  "must not name a person twice": "no debe nombrar a una persona dos veces",
  "must not lie before from": "no debe ser anterior a from",
  "must be a SHA-256 in lower-case hexadecimal": "debe ser un SHA-256 en hexadecimal y minúsculas",
  "must be a SHA-256 in lower-case hex": "debe ser un SHA-256 en hexadecimal y minúsculas",
  "lies before the first day": "es anterior al primer día",
  "at most {most} lines": "como máximo {most} líneas",
  "must be a colour such as #14524d": "debe ser un color, por ejemplo #14524d",
  "is too light to be read on white paper; choose a darker one":
    "es demasiado claro para leerse en papel blanco; elija uno más oscuro",
  "must be an IANA time zone such as Europe/London":
    "debe ser una zona horaria IANA, por ejemplo Europe/London",
  "must be an IANA time zone": "debe ser una zona horaria IANA",
  "must be a time zone such as Europe/London":
    "debe ser una zona horaria, por ejemplo Europe/London",
  "lies in the future; check the clock it was read by":
    "está en el futuro; compruebe el reloj con el que se leyó",
  "is before the release itself, {day}": "es anterior a la propia versión, {day}",
  "is not what the service printed": "no es lo que el servicio mostró",
  "must leave the count between the years {from} and {to}":
    "debe dejar la cuenta entre los años {from} y {to}",
  "is not needed: all of {country} has the same days":
    "no hace falta: todo {country} tiene los mismos días",
  "must be one of {options}": "debe ser uno de {options}",
  "must be the ISO 3166-1 alpha-2 code of a country with known holidays":
    "debe ser el código ISO 3166-1 alfa-2 de un país con festivos conocidos",
  "must be an ISO 3166-1 alpha-2 code such as GB":
    "debe ser un código ISO 3166-1 alfa-2, por ejemplo GB",
  "is missing; a new {kind:word} needs it": "falta; es necesario para uno nuevo ({kind})",
  "is missing: every row needs it": "falta: toda fila lo necesita",
  "has {cells} cells where the file has {columns} columns":
    "tiene {cells} celdas donde el archivo tiene {columns} columnas",
  "is not a cursor of this list": "no es un cursor de esta lista",
  "give either planVersionId or planId": "indique planVersionId o planId, uno de los dos",
  "belongs to the kind used, which needs it": "es propio de la clase used, que lo necesita",
  "is what the kind note consists of": "es en lo que consiste la clase note",
  "needs rangeMax, of which it is a part": "necesita rangeMax, del que es una parte",
  "needs resolution, whose steps it counts": "necesita resolution, cuyos pasos cuenta",
  "belongs to torque tools alone": "es solo de herramientas dinamométricas",
  "must be after calibratedOn": "debe ser posterior a calibratedOn",
  "must be within ten years of calibratedOn": "debe estar a menos de diez años de calibratedOn",
  "must lie after the year 2000": "debe ser posterior al año 2000",
  "must have at least one part": "debe tener al menos una parte",
  "is no class of this type": "no es una clase de este tipo",
  "is somebody's already": "ya es de alguien",
  "must not name a unit twice": "no debe nombrar una unidad dos veces",
  '"{text}" is neither "pack" nor "in the box"': "«{text}» no es ni «pack» ni «in the box»",
  "must be a time of day such as 20:00": "debe ser una hora, por ejemplo 20:00",
  "must be a time of day such as 08:30": "debe ser una hora, por ejemplo 08:30",
  "must be a time such as 08:00": "debe ser una hora, por ejemplo 08:00",
  "must be a time of day in steps of 5 minutes, as 09:30":
    "debe ser una hora en pasos de 5 minutos, como 09:30",
  "must be in steps of 5 minutes": "debe ir en pasos de 5 minutos",
  "must be later than from": "debe ser posterior a from",
  "must differ from the beginning": "debe ser distinto del comienzo",
  "is the record itself": "es el propio registro",
  "a person has at least one role": "una persona tiene al menos un papel",
  "must not name a role twice": "no debe nombrar un papel dos veces",
  "must have at least 12 characters: a phrase of several words is easiest to keep":
    "debe tener al menos 12 caracteres: una frase de varias palabras es lo más fácil de recordar",
  "must not be the person's own e-mail address or name":
    "no debe ser la dirección de correo ni el nombre de la persona",
  "is not your present password": "no es su contraseña actual",
  "must begin with https://": "debe empezar por https://",
  "is the one that was given to you: choose another": "es la que le dieron: elija otra",
  "must be a JSON object": "debe ser un objeto JSON",
  "must be at most {most} bytes of JSON; it is {found}":
    "debe tener como máximo {most} bytes de JSON; tiene {found}",
  "has a member whose name holds control characters or half a character":
    "tiene un miembro cuyo nombre lleva caracteres de control o medio carácter",
  "is too large a number": "es un número demasiado grande",
  "lies more than {most} levels deep": "está a más de {most} niveles de profundidad",
  "must be 2 to 32 capitals, digits and hyphens":
    "debe tener de 2 a 32 mayúsculas, cifras y guiones",
  "is missing; only with `starter` it may be left out": "falta; solo con `starter` puede omitirse",
  "does not go together with `document`": "no va junto con `document`",
  "must have at most {most} entries": "debe tener como máximo {most} entradas",
  "is missing; name the kind or a productModelId": "falta; indique la clase o un productModelId",
  "give a document or name a plan, one of them": "dé un documento o nombre un plan, uno de los dos",
  "line {line} is not of the form name = value": "la línea {line} no tiene la forma nombre = valor",
  "line {line} gives {name} a second time": "la línea {line} da {name} por segunda vez",
  "line {line}: {problem:said}": "línea {line}: {problem}",
  "must be a letter, then letters, digits or _, 40 at most":
    "debe ser una letra y después letras, cifras o _, 40 como máximo",
  "is a reserved name: choose another": "es un nombre reservado: elija otro",
  "must not lie before validFrom": "no debe ser anterior a validFrom",
  "must not name a crew twice": "no debe nombrar un equipo dos veces",
  "must stay {id}; add a pack of another id by POST":
    "debe seguir siendo {id}; añada un conjunto con otro id mediante POST",
  "give a job, a visit, or both": "indique un trabajo, una visita o ambos",
  "has at most three places": "tiene como máximo tres decimales",
  "must be more than nothing": "debe ser más que nada",
  "goes with moved, and moved needs it": "va con moved, y moved lo necesita",
  "is where it lies already": "es donde ya está",
  "goes with since": "va con since",
  "is not after since": "no es posterior a since",
  "goes with used and returned only": "va solo con used y returned",
  "holds no serial": "no lleva número de serie",
  "is to be looked at before the unit counts as stock":
    "hay que mirarlo antes de que la unidad cuente como existencia",
  "is the code of another consumable": "es el código de otro consumible",
  "needs the rulePack that it is a version of": "necesita el rulePack del que es una versión",
  "must be a whole number of bytes": "debe ser un número entero de bytes",
  "must be at most {most} bytes": "debe tener como máximo {most} bytes",
  "must be at least 1 byte": "debe tener al menos 1 byte",
  "must be sent as {type}": "debe enviarse como {type}",
  "is less than what was sent; send the whole length":
    "es menos de lo que se envió; envíe la longitud completa",
  "is not the code that is shown now": "no es el código que se muestra ahora",
  "is neither the code that is shown now nor a recovery code":
    "no es ni el código que se muestra ahora ni un código de recuperación",
  "is installed at this site already": "ya está instalado en este emplazamiento",
  "is not installed anywhere": "no está instalado en ninguna parte",
  "is before an earlier move: {move:said}": "es anterior a un movimiento previo: {move}",
  "the unit was {state:word} on {day}": "la unidad estaba {state} el {day}",
  "is a place in a bank: send bankId with it": "es un puesto de un banco: envíe bankId con él",
  "send either newUnitId or newSerial": "envíe newUnitId o newSerial, uno de los dos",
  "goes with newSerial only": "va solo con newSerial",
  "was swapped out already": "ya se sustituyó",
  "is not installed": "no está instalado",
  "is the unit that is swapped out": "es la unidad que se sustituye",
  "must not name an instrument twice": "no debe nombrar un instrumento dos veces",
  "give startsAt and endsAt, or local, and not both":
    "indique startsAt y endsAt, o local, y no ambos",
  "must be above the lowest": "debe ser mayor que el mínimo",
  "lowest is above highest": "el mínimo es mayor que el máximo",
  "send throughputKwh, temperature or both": "envíe throughputKwh, temperature o ambos",
  "must be a number": "debe ser un número",
  "Give both ends or none.": "Dé ambos extremos o ninguno.",
  "Give level and days or none.": "Dé nivel y días o ninguno.",
  "must not hold a user name or password": "no debe llevar nombre de usuario ni contraseña",
  "choose at least one kind of event": "elija al menos una clase de suceso",
  "give deliveryId or since, one of them": "indique deliveryId o since, uno de los dos",
  "{address} is not a public address; webhooks go to public ones only":
    "{address} no es una dirección pública; los webhooks solo van a direcciones públicas",
  "must not name a day of the week twice": "no debe nombrar un día de la semana dos veces",
  "must be a subdivision of the country with holidays of its own":
    "debe ser una subdivisión del país con festivos propios",
} as const;
