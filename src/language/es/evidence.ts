import type { Translation } from "../translation.ts";

export const evidence: Translation<typeof import("../en/evidence.ts").evidence> = {
  "evidence.title": "Pruebas",
  "evidence.note":
    "Paquetes que cualquiera comprueba con sha256sum y openssl: los registros de un " +
    "emplazamiento, un equipo, un periodo o todo el parque. El archivo se guarda siete días; el " +
    "mismo registro da otra vez el mismo paquete. Cada entrega queda en el libro de cada trabajo.",
  "evidence.what": "Pruebas de",
  "evidence.state": "Estado",
  "evidence.made": "Pedido",
  "evidence.by": "Por",
  "evidence.file": "Archivo",
  "evidence.keys": "certificados",
  "evidence.checkpoints": "huellas diarias de todos los libros",
  "evidence.none": "Aún no se han sacado pruebas.",
  "evidence.noneWayOut": "Elija abajo de qué. Las de un solo trabajo están en su página.",
  "evidence.new": "Sacar pruebas",
  "evidence.scope": "Pruebas de",
  "evidence.scope.site": "un emplazamiento",
  "evidence.scope.unit": "un equipo",
  "evidence.scope.period": "trabajos cerrados en un periodo",
  "evidence.scope.fleet": "todo el parque",
  "evidence.of.site": "el emplazamiento {name}",
  "evidence.of.unit": "el equipo {name}",
  "evidence.of.period": "los trabajos cerrados del {from} al {to}",
  "evidence.within": "{what}, dentro del alcance de una auditoría ({scope})",
  "evidence.site": "Referencia del emplazamiento",
  "evidence.serial": "Número de serie del equipo",
  "evidence.from": "Primer día del periodo",
  "evidence.to": "Último día del periodo",
  "evidence.doExport": "Hacer el paquete",
  "evidence.state.making": "en preparación",
  "evidence.state.ready": "listo",
  "evidence.state.failed": "fallido",
  "evidence.state.gone": "archivo retirado",
  "evidence.stamped": "Sello de tiempo del {at}",
  "evidence.unstamped":
    "El servicio de sellado de tiempo no dio ningún sello. El paquete está íntegro sin él; " +
    "pídalo de nuevo más tarde para tenerlo con sello.",
  "evidence.size": "{megabytes} MB",
  "evidence.check": "Cómo se comprueba",
  "evidence.checkHere": "Comprobar un paquete en el navegador, sin enviarlo a ningún sitio",
  "evidence.checkNote":
    "README.txt en cada paquete tiene todas las órdenes, y lo que muestran y lo que no. Las más " +
    "cortas, en la carpeta desempaquetada; la última vuelve a calcular cada veredicto:",
  "evidence.certificates": "Los certificados de la empresa, con sus huellas y días de uso:",
};
