import type { Translation } from "../translation.ts";

export const check: Translation<typeof import("../en/check.ts").check> = {
  "check.title": "Comprobar un acta",
  "check.number": "El número del papel, la cabeza del registro del trabajo (SHA-256):",
  "check.noNumber": "La dirección del papel lleva 64 cifras y letras; aquí no.",
  "check.what":
    "Cada entrada del registro de un trabajo lleva el hash de la anterior. Si algo cambiara, " +
    "este último número sería otro.",
  "check.ask": "Pida a la empresa que hizo el trabajo su paquete de pruebas, un fichero ZIP.",
  "check.follow":
    "Haga lo que dice su README.txt: sus órdenes necesitan sha256sum y openssl, y nada nuestro.",
  "check.compare": "Compare el número del papel con el del paquete:",
  "check.note": "Esta página no consulta nada: no hace falta fiarse de ella, ni de nosotros.",
  "check.paper": "Un acta impresa",
  "check.bag": "Compruebe aquí un paquete de pruebas",
  "check.bagNote":
    "Su navegador hace toda la comprobación: el archivo no sale de este dispositivo y no se " +
    "envía nada. Admite el fichero ZIP tal como llegó, de cualquier tamaño. " +
    "El programa que la hace viene de este servicio: para fiarse solo de otras " +
    "herramientas, use README.txt del paquete.",
  "check.choose": "Paquete de pruebas, un fichero ZIP",
  "check.drop": "O suelte aquí el archivo.",
  "check.notDone": "En este navegador la página solo puede explicarlo: use README.txt del paquete.",
  "check.trust": "Certificados que obtuvo por otra vía (opcional)",
  "check.trustNote":
    "Sin ellos la comprobación muestra que nadie cambió el paquete después de firmarlo, no " +
    "quién lo firmó.",
  "check.trusted": "Los certificados de la empresa (PEM)",
  "check.roots": "Certificados raíz del servicio de sellado de tiempo (PEM)",
  "check.again": "Comprobar de nuevo",
  "check.reading": "Comprobando {name}: {percent} %",
  "check.step.files": "Archivos",
  "check.step.signature": "Firma",
  "check.step.stamp": "Sello de tiempo",
  "check.step.record": "Libro y veredictos",
  "check.step.paper": "Número del papel",
  "check.state.good": "se sostiene",
  "check.state.bad": "no se sostiene",
  "check.state.none": "no hay",
  "check.state.open": "sin mirar",
  "check.whole": "El paquete está íntegro.",
  "check.otherPaper": "El paquete está íntegro, pero no es el de este papel.",
  "check.broken":
    "El paquete no está íntegro. No se fíe de él; pídalo de nuevo a la empresa y guarde " + "este.",
  "check.unreadable": "El archivo no se puede comprobar.",
  "check.faults": "Lo que falla: {count}",
  "check.more": "Solo se muestran los primeros {shown}.",
  "check.says.files":
    "{count} archivos: cada uno como figura y se firmó, sin que falte ni sobre ninguno.",
  "check.says.signed": "Firmado con la clave {key}.",
  "check.says.signedGiven": "Es uno de los certificados que indicó.",
  "check.says.signedAlone":
    "De quién es esa clave, el paquete solo no lo puede decir: compare esta huella con la " +
    "empresa, por teléfono o en papel.",
  "check.says.stamped": "Dado el {at} por «{by}»: la firma existía entonces.",
  "check.says.stampGiven": "Su certificado lleva a los que indicó.",
  "check.says.stampEnclosed":
    "Su certificado lleva a raíces que contiene el propio paquete; de quién son, el paquete " +
    "solo no lo puede decir.",
  "check.says.stampUnknown": "De quién es ese servicio, el paquete solo no lo puede decir.",
  "check.says.stampNone": "El paquete no tiene ninguno, ni debía tenerlo.",
  "check.says.stampAsked":
    "El paquete no tiene ninguno, aunque {service} debía darlo. Pida de nuevo el paquete a " +
    "la empresa.",
  "check.says.record":
    "Libro de {entries} entradas sin romper; los {verdicts} veredictos resultan otra vez del " +
    "plan y de las lecturas.",
  "check.says.withheld":
    "Textos borrados de lo registrado: {withheld}. El libro solo contiene sus hashes con sal.",
  "check.says.paper":
    "Es el de la entrada {entry} de {entries} en {folder}/ledger de este paquete.",
  "check.says.paperOther":
    "No está en ningún libro de este paquete: el papel es de otro trabajo, o se cambió el " +
    "papel o el paquete.",
  "check.says.open": "Sin mirar, por lo que falla arriba.",
  "check.unreadable.cut-off": "{file} no es un fichero ZIP entero. Consígalo de nuevo.",
  "check.unreadable.compressed":
    "{file} se empaquetó de nuevo: {entry} está comprimido, y los paquetes de pruebas no lo " +
    "están. Use el archivo tal como llegó.",
  "check.unreadable.odd":
    "{file} no es un fichero ZIP como los de los paquetes de pruebas. En inglés: {why}",
  "check.unreadable.other": "No se pudo leer. En inglés: {why}",
  "check.unreadable.insecure":
    "Abra esta página por https: en una conexión sin cifrar los navegadores no ofrecen " +
    "criptografía.",
};
