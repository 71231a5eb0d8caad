/** Switches and addresses of a bank: src/domain/bank. */
export const bank = {
  "Packs {positions:said} all have address {address}.":
    "Los paquetes {positions} tienen todos la dirección {address}.",
  "pack {position}": "paquete {position}",
  "packs {positions:said}": "paquetes {positions}",
  "{packs:said} (address {address})": "{packs} (dirección {address})",
  "No pack has address {gap}, between {before:said} and {after:said}.":
    "Ningún paquete tiene la dirección {gap}, entre {before} y {after}.",
  "Isolate, lock off and prove dead before touching switches. The maker's instructions prevail; local codes and licensed practice apply.":
    "Aísle, bloquee y compruebe la ausencia de tensión antes de tocar conmutadores. Las instrucciones del fabricante prevalecen; se aplican la normativa local y el criterio de un profesional habilitado.",
  "{model} has no protocol {protocol}; it has {known}":
    "{model} no tiene protocolo {protocol}; tiene {known}",
  "{protocol} takes {least} to {most} packs, not {count}":
    "{protocol} admite de {least} a {most} paquetes, no {count}",
  "pack {pack}: the map does not say how {switch} is set":
    "paquete {pack}: el mapa no dice cómo se pone {switch}",
  "pack {pack}: {switch} has no position {position}":
    "paquete {pack}: {switch} no tiene posición {position}",
  "Pack {position} is not part of this bank of {count}.":
    "El paquete {position} no forma parte de este banco de {count}.",
  "Pack {position} was not read.": "El paquete {position} no se leyó.",
  "Pack {position} was read {count} times.": "El paquete {position} se leyó {count} veces.",
  "Pack {position}, {switch}: {words:said}.": "Paquete {position}, {switch}: {words}.",
  "not read, must be {expected}": "no leído, debe estar en {expected}",
  "“{found}” is no position of this switch, must be {expected}":
    "«{found}» no es una posición de este conmutador, debe estar en {expected}",
  "is {found}, must be {expected}": "está en {found}, debe estar en {expected}",
  "lever {lever} is {found:word}, must be {wanted:word}":
    "la palanca {lever} está {found}, debe estar {wanted}",
  "ON {sign}": "ON {sign}",
  "Switch settings: {model}": "Ajustes de conmutadores: {model}",
  "Pack {position}": "Paquete {position}",
  "address {address}": "dirección {address}",
  "Pack {position}: {settings}.": "Paquete {position}: {settings}.",
  "the map has no switch {switch}": "el mapa no tiene conmutador {switch}",
  "pack {pack}: {problem:said}": "paquete {pack}: {problem}",
  "{switch}: {position} is not one digit for each of {levers} levers":
    "{switch}: {position} no es una cifra para cada una de {levers} palancas",
  "{switch} cannot show {value}": "{switch} no puede mostrar {value}",
  "{word:term} {id} is named twice": "{word} {id} se nombra dos veces",
  "switch {switch} prints one position twice": "el conmutador {switch} repite una posición",
  "protocol {protocol}: the pack count runs from {least} down to {most}":
    "protocolo {protocol}: el número de paquetes va de {least} hacia abajo hasta {most}",
  "protocol {protocol} names the switch {switch}, which the map does not have":
    "el protocolo {protocol} nombra el conmutador {switch}, que el mapa no tiene",
  "protocol {protocol}, switch {switch}": "protocolo {protocol}, conmutador {switch}",
  "{where:said}: is set by {count} parts, not by one": "{where}: lo ponen {count} partes, no una",
  "{where:said}: lever {lever} is not set exactly once":
    "{where}: la palanca {lever} no se pone exactamente una vez",
  "protocol {protocol}: {switch} does not have the address levers {levers}":
    "protocolo {protocol}: {switch} no tiene las palancas de dirección {levers}",
  "protocol {protocol}, {packs} packs: {problem:said}":
    "protocolo {protocol}, {packs} paquetes: {problem}",
  "pack {pack} has {rows} rows for a bank of {packs}, not one":
    "el paquete {pack} tiene {rows} filas para un banco de {packs}, no una",
  "more than one row speaks of the last pack": "más de una fila trata del último paquete",
} as const;
