/** What is wrong with a serial number or a label: src/domain/identifiers. */
export const serials = {
  "There is nothing to compute a check digit from.":
    "No hay nada de lo que calcular un dígito de control.",
  "A check digit covers at most {most} characters.":
    "Un dígito de control cubre como máximo {most} caracteres.",
  '"{character}" cannot be covered by a {scheme} check digit':
    "«{character}» no puede cubrirse con un dígito de control {scheme}",
  "{fault:said}: use {alphabet:said}.": "{fault}: use {alphabet}.",
  "digits only": "solo cifras",
  "digits and capital letters only": "solo cifras y letras mayúsculas",
  "The serial rule of this product model is not usable: {problem:said}":
    "La regla de números de serie de este modelo no se puede usar: {problem}",
  "scan only the serial, not the whole label":
    "escanee solo el número de serie, no toda la etiqueta",
  "A serial has at most {most} characters: {advice:said}.":
    "Un número de serie tiene como máximo {most} caracteres: {advice}.",
  "There is no serial: type or scan it.": "No hay número de serie: escríbalo o escanéelo.",
  "look for what is missing": "busque lo que falta",
  "look for what is typed twice": "busque lo que se escribió dos veces",
  "{count} characters; this product model's have {wanted}":
    "{count} caracteres; los de este modelo tienen {wanted}",
  "This serial has {lengths:said}: {advice:said}.":
    "Este número de serie tiene {lengths}: {advice}.",
  'Character {place} is "{found}" where {expected:said} belongs':
    "El carácter {place} es «{found}» donde va {expected}",
  "{found:said}: compare it with the label": "{found}: compárelo con la etiqueta",
  "{found:said}: compare it with the label.": "{found}: compárelo con la etiqueta.",
  "The check digit at the end does not match: compare every character with the label":
    "El dígito de control final no coincide: compare cada carácter con la etiqueta",
  "{problem:said} and see whether it says {suggestion}.": "{problem} y vea si dice {suggestion}.",
  "({ai}) is not an identifier this tool knows.":
    "({ai}) no es un identificador que esta herramienta conozca.",
  "{least} to {most}": "{least} a {most}",
  "({ai}) {title:said} has {count} characters where {wanted:said} belong.":
    "({ai}) {title} tiene {count} caracteres donde van {wanted}.",
  "({ai}) {title:said} has a character GS1 does not allow.":
    "({ai}) {title} tiene un carácter que GS1 no admite.",
  "({ai}) {title:said} may have digits only.": "({ai}) {title} solo puede tener cifras.",
  "({ai}) {title:said} {value} has a wrong check digit: scan it again.":
    "({ai}) {title} {value} tiene un dígito de control erróneo: escanéelo de nuevo.",
  "({ai}) {title:said} {value} is no date (YYMMDD).":
    "({ai}) {title} {value} no es una fecha (AAMMDD).",
  "The address is too long for a label.": "La dirección es demasiado larga para una etiqueta.",
  "This is not a web address.": "Esto no es una dirección web.",
  "This web address holds no GS1 key, such as /01/ and a GTIN.":
    "Esta dirección web no tiene ninguna clave GS1, por ejemplo /01/ y un GTIN.",
  "An identifier comes twice.": "Un identificador aparece dos veces.",
  "A Digital Link needs a key, such as (01) and a GTIN.":
    "Un Digital Link necesita una clave, por ejemplo (01) y un GTIN.",
  "({qualifiers}) cannot follow ({key}) in this order.":
    "({qualifiers}) no puede ir tras ({key}) en este orden.",
  "({ai}) has a % that is not followed by two hex digits.":
    "({ai}) tiene un % al que no siguen dos cifras hexadecimales.",
  "({ai}) comes twice.": "({ai}) aparece dos veces.",
  "({ai}) belongs in the path after ({key}), not after the question mark.":
    "({ai}) va en la ruta tras ({key}), no tras el signo de interrogación.",
  "The text is too long for a label.": "El texto es demasiado largo para una etiqueta.",
  "({ai}) comes twice with different values: scan one unit at a time.":
    "({ai}) aparece dos veces con valores distintos: escanee una unidad cada vez.",
  "There is nothing to write.": "No hay nada que escribir.",
  "There is nothing to read.": "No hay nada que leer.",
  '"{found}" does not start an identifier this tool knows.':
    "«{found}» no inicia ningún identificador que esta herramienta conozca.",
  "The mask is empty: write # for a digit, @ for a letter":
    "La máscara está vacía: escriba # para una cifra, @ para una letra",
  "The mask is too long to read": "La máscara es demasiado larga",
  "A serial has at most {most} characters":
    "Un número de serie tiene como máximo {most} caracteres",
  "a digit": "una cifra",
  "a letter": "una letra",
  "a letter or digit": "una letra o cifra",
  '{what:said} or "{also}"': "{what} o «{also}»",
  '"{sign}" follows nothing to repeat: write \\{sign} for the sign':
    "«{sign}» no sigue a nada que repetir: escriba \\{sign} para el signo",
  "The mask ends in \\": "La máscara termina en \\",
  "A serial has no spaces or accents": "Un número de serie no tiene espacios ni acentos",
  "{what:said}: use printable characters only": "{what}: use solo caracteres imprimibles",
  "After { write how many, 1 to 64, and }": "Tras { escriba cuántos, de 1 a 64, y }",
  "{problem:said} (character {position} of the mask).":
    "{problem} (carácter {position} de la máscara).",
  "A {check} check digit covers digits only": "Un dígito de control {check} solo cubre cifras",
  "{fault:said}: the mask may use # but not @ or *.":
    "{fault}: la máscara puede usar # pero no @ ni *.",
  "The mask must end in # or * for the {check} check digit, after what it covers.":
    "La máscara debe terminar en # o * para el dígito de control {check}, tras lo que cubre.",
  "The mask must end {advice:said}.": "La máscara debe terminar {advice}.",
  "in # or * for the {check} check digit, after what it covers":
    "en # o * para el dígito de control {check}, tras lo que cubre",
  "A label has at most {most} characters: scan one label at a time.":
    "Una etiqueta tiene como máximo {most} caracteres: escanee una etiqueta cada vez.",
  "More than {most} serials: scan one label at a time.":
    "Más de {most} números de serie: escanee una etiqueta cada vez.",
  "This code holds no serial (21): scan the code beside the serial.":
    "Este código no lleva número de serie (21): escanee el que está junto al número.",
  "A serial has at most {most} characters.":
    "Un número de serie tiene como máximo {most} caracteres.",
  "A serial has no spaces or accents: check this line.":
    "Un número de serie no tiene espacios ni acentos: compruebe esta línea.",
  "GTIN of contained items": "GTIN de los artículos contenidos",
  "batch or lot": "lote",
  "production date": "fecha de producción",
  "due date": "fecha de vencimiento",
  "packaging date": "fecha de envasado",
  "best before date": "fecha de consumo preferente",
  "sell by date": "fecha límite de venta",
  "expiry date": "fecha de caducidad",
  "consumer product variant": "variante de producto de consumo",
  "third-party serial": "número de serie de un tercero",
  "additional item identification": "identificación adicional",
  "customer part number": "referencia del cliente",
  "made-to-order variant": "variante bajo pedido",
  "packaging component": "componente del envase",
  "secondary serial": "número de serie secundario",
  "reference to source": "referencia al origen",
  "GLN extension": "extensión del GLN",
  "variable count": "recuento variable",
  "count of items": "recuento de artículos",
  "order number": "número de pedido",
  "country of origin": "país de origen",
  "software version": "versión de software",
  "weight in kg": "peso en kg",
  "agreed between partners": "acordado entre socios",
  "company internal": "interno de la empresa",
} as const;
