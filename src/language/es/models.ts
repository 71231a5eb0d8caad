import type { Translation } from "../translation.ts";

export const models: Translation<typeof import("../en/models.ts").models> = {
  "models.link": "Modelos de producto",
  "models.title": "Modelos de producto",
  "models.note":
    "Qué tipos de equipo hay: cómo son sus números de serie, cómo se ordenan sus niveles de " +
    "firmware y las cifras con las que cuentan los planes.",
  "models.add": "Dar de alta un modelo",
  "models.new": "Un modelo de producto nuevo",
  "models.all": "Todos los modelos de producto",
  "models.code": "Código",
  "models.codePart": "Parte del código",
  "models.name": "Nombre",
  "models.maker": "Fabricante",
  "models.kind": "Clase",
  "models.kind.battery-pack": "paquete de baterías",
  "models.kind.inverter": "inversor",
  "models.kind.gateway": "pasarela",
  "models.kind.meter": "contador",
  "models.kind.isolator": "seccionador",
  "models.serialMask": "El número de serie es así",
  "models.serialMaskHint":
    "# una cifra, @ una letra, * cualquiera, \\x el propio carácter x, '{'n'}' repite: " +
    "FS@#'{'8'}'",
  "models.serialCheck": "Dígito de control",
  "models.firmwareScheme": "Orden de los niveles de firmware",
  "models.attributes": "Cifras de las instrucciones del fabricante",
  "models.attributesHint": "Una por línea, nombre = valor: terminalTorqueNm = 8.6",
  "models.caution":
    "Tome cada cifra de las instrucciones del propio fabricante para este modelo y edición; " +
    "prevalecen sobre lo que figure aquí.",
  "models.none": "No hay ningún modelo de producto.",
  "models.noneWayOut": "Dé de alta el primero: un paquete de baterías o un inversor que instale.",
};
