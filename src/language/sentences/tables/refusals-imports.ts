/** Imports, and what tablets sent that was held: src/features/imports, src/features/tablet. */
export const refusalsImports = {
  "Something changed since the dry run, and rows are bad by now. Nothing was imported.":
    "Algo cambió desde el ensayo, y ahora hay filas malas. No se importó nada.",
  "One row is bad": "Una fila es mala",
  "{count:figure} rows are bad": "{count} filas son malas",
  "Mend them and send the file again, or import the good rows alone.":
    "Corríjalas y envíe el archivo de nuevo, o importe solo las filas buenas.",
  "{bad:said}: nothing is imported. {wayOut:said}": "{bad}: no se importa nada. {wayOut}",
  "{bad:said}: nothing is imported.": "{bad}: no se importa nada.",
  "The file is empty.": "El archivo está vacío.",
  "The row with column names holds the character U+0000. Save the table as CSV and send that.":
    "La fila con los nombres de las columnas contiene el carácter U+0000. " +
    "Guarde la tabla como CSV y envíe ese archivo.",
  "The file has more than {most}. Send it in parts.":
    "El archivo tiene más de {most}. Envíelo por partes.",
  "The import is {state:word}; for this it has to be {wanted:word}.":
    "La importación está {state}; para esto debe estar {wanted}.",
  "The import went on meanwhile. Look how it stands now.":
    "La importación siguió entretanto. Mire cómo está ahora.",
  "{reference} is of the class {class:term}: take it on as another one.":
    "{reference} es de la clase {class}: dé de alta otro.",
  "The file is not in {encoding}. Choose another encoding.":
    "El archivo no está en {encoding}. Elija otra codificación.",
  "The record that begins on line {line}": "El registro que empieza en la línea {line}",
  "Mend it, or choose what really parts the cells.":
    "Corríjalo, o elija lo que de verdad separa las celdas.",
  "{record:said} has a quote that nothing closes. {wayOut:said}":
    "{record} tiene unas comillas que nada cierra. {wayOut}",
  "{record:said} has a quote that nothing closes.": "{record} tiene unas comillas que nada cierra.",
  "{record:said} is too long for a row of a table: a quote may be open. {wayOut:said}":
    "{record} es demasiado largo para una fila: puede haber comillas abiertas. {wayOut}",
  "{record:said} is too long for a row of a table: a quote may be open.":
    "{record} es demasiado largo para una fila: puede haber comillas abiertas.",
  "{record:said} has a quote in the wrong place: a cell with quotes stands in quotes, and each quote inside it is doubled (RFC 4180). {wayOut:said}":
    "{record} tiene comillas en mal lugar: una celda con comillas va entre comillas, y cada comilla interior se duplica (RFC 4180). {wayOut}",
  "{record:said} has a quote in the wrong place: a cell with quotes stands in quotes, and each quote inside it is doubled (RFC 4180).":
    "{record} tiene comillas en mal lugar: una celda con comillas va entre comillas, y cada comilla interior se duplica (RFC 4180).",
  "The file has {count} columns.": "El archivo tiene {count} columnas.",
  "There is no field {field}.": "No hay ningún campo {field}.",
  "{field} has another column already.": "{field} ya tiene otra columna.",
  "{field} has a column of its own.": "{field} tiene su propia columna.",
  "Every row needs {field}: say which column holds it.":
    "Toda fila necesita {field}: indique qué columna lo tiene.",
  "{field}: is missing; a new {kind:term} needs it":
    "{field}: falta; es necesario para uno nuevo ({kind})",
  "name: is missing; a new customer needs it": "name: falta; un cliente nuevo lo necesita",
  "serial: there is no such unit in your firm": "serial: no hay tal unidad en su empresa",
  "serial: several product models have a unit of it; give the model too":
    "serial: varios modelos tienen una unidad con él; dé también el modelo",
  "There are {count} customers of this name: give the reference of the one that is meant.":
    "Hay {count} clientes con este nombre: dé la referencia del que se trata.",
  "Send the file first.": "Envíe antes el archivo.",
  "Send the file as the body.": "Envíe el archivo como contenido.",
  "Something failed on our side, several times. Nothing was imported. Try the dry run again.":
    "Algo falló por nuestra parte, varias veces. No se importó nada. Repita el ensayo.",
  "{name} {decided:word} it on {day}.": "{name} {decided} el {day}.",
  "Two tablets": "Dos tabletas",
  "{count:figure} tablets": "{count} tabletas",
  "A tablet and the office": "Una tableta y la oficina",
  "{who:said} answered this alike: {told:said}": "{who} respondieron esto igual: {told}",
  "{who:said} answered this: {told:said}": "{who} respondieron esto: {told}",
  "{name} at {time}: {sentence:said}": "{name} a las {time}: {sentence}",
  "What {name} took last counts.": "Vale lo que tomó {name} en último lugar.",
  "It was answered again since, and that counts.": "Se respondió de nuevo después, y eso vale.",
  "Another answer was kept under the id of this one.":
    "Con el id de esta se guardó otra respuesta.",
  "The time it was taken {problem:said}.": "La hora en que se tomó {problem}.",
  'The plan of this job has no stage "{stage}".':
    "El plan de este trabajo no tiene ninguna etapa «{stage}».",
  "The stage ends before it begins: the clock was changed.":
    "La etapa termina antes de empezar: se cambió el reloj.",
  "An answer": "Una respuesta",
  "A stage's time": "El tiempo de una etapa",
  "A snag": "Un repaso",
  "A message": "Un mensaje",
  "A close-out": "Un cierre",
  "The person who kept this on the tablet is not in your firm.":
    "Quien guardó esto en la tableta no está en su empresa.",
  "{what:said} takes the role {roles:term}; {name} has {own:term}.":
    "{what} requiere el papel: {roles}; {name} tiene: {own}.",
  "{what:said} takes the role {roles:term}; {name} has none.":
    "{what} requiere el papel: {roles}; {name} no tiene ninguno.",
  "These facts are another firm's. Sign in as someone of that firm to send them.":
    "Estos datos son de otra empresa. Inicie sesión como alguien de esa empresa para enviarlos.",
  "Its text at {place} {fault:said}. It was put aside for the office.":
    "Su texto en {place} {fault}. Se apartó para la oficina.",
  "Its text at {place} {fault:said}. Put it aside.": "Su texto en {place} {fault}. Apártelo.",
  "Another operation was kept under this id, or as number {number} of this tablet. The first one stands; this one was put aside for the office.":
    "Con este id, o como número {number} de esta tableta, se guardó otra operación. Vale la primera; esta se apartó para la oficina.",
  "The file": "El archivo",
  "A line": "Una línea",
  "{what:said} has more than {most} bytes.": "{what} tiene más de {most} bytes.",
  "The upload stands at {bytes} bytes; go on from there.":
    "El envío va por {bytes} bytes; continúe desde ahí.",
  "{count:figure} photos of your firm are on their way; let those arrive first.":
    "{count} fotos de su empresa están en camino; deje que lleguen antes.",
  "This is neither an operation nor a photo of an outbox.":
    "Esto no es ni una operación ni una foto de una bandeja de salida.",
  "The operation cannot be read: {problem:said}": "La operación no se puede leer: {problem}",
  "Operation {number} of its tablet came early: one before it is missing.":
    "La operación {number} de su tableta llegó antes de tiempo: falta una anterior.",
  "Operation {number} of its tablet is {state:word}: {problem:said}":
    "La operación {number} de su tableta está {state}: {problem}",
  "The photo cannot be read: {problem:said}": "La foto no se puede leer: {problem}",
  "/{place} {problem:said}": "/{place} {problem}",
  "Photo {photo}… is refused: {problem:said}": "La foto {photo}… se rechaza: {problem}",
  "There is no such file of the tablet's page.": "No hay tal archivo de la página de la tableta.",
  "It could not be judged because of a fault of the service, which is in its log. Apply it again when that is mended.":
    "No se pudo evaluar por un fallo del servicio, que está en su registro. Aplíquelo de nuevo cuando se corrija.",
} as const;
