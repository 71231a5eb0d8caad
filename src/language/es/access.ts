import type { Translation } from "../translation.ts";

export const access: Translation<typeof import("../en/access.ts").access> = {
  "access.title": "Acceso de auditoría de {name}",
  "access.now": "Acceso ahora",
  "access.over": "terminado",
  "access.stands": "dado",
  "access.days": "Del {from} al {until}.",
  "access.noEnd": "Desde el {from}, sin último día.",
  "access.wholeFirm": "Toda la empresa",
  "access.givenBy": "Dado por {name}.",
  "access.withdrawnBy": "Retirado por {name}.",
  "access.withdraw": "Retirarlo ahora",
  "access.none": "No se dio ningún acceso: este auditor no ve nada.",
  "access.noneWayOut": "Dé abajo un acceso, con sus días y lo que se puede ver.",
  "access.give": "Dar acceso",
  "access.note":
    "Sustituye al anterior, que queda registrado. Quien pasa a ser solo auditor ve toda la " +
    "empresa durante {days} días si no se le da otra cosa; los auditores de antes de esta regla " +
    "tuvieron {days} días desde la actualización del servicio.",
  "access.outside": "Viene de fuera de la empresa: hace falta un último día",
  "access.from": "Primer día",
  "access.until": "Último día",
  "access.scope": "Lo que se puede ver",
  "access.scopeNote": "Cada parte limita las otras. Sin ninguna es toda la empresa.",
  "access.periodFrom": "Trabajos cerrados o visitados desde",
  "access.periodTo": "Trabajos cerrados o visitados hasta",
  "access.sites": "Instalaciones",
  "access.sitesHint": "Referencias, por ejemplo S-2026-0001 S-2026-0002",
  "access.models": "Modelos de producto",
  "access.doGive": "Dar este acceso",
  "access.earlier": "Anteriores",
  "access.ofPeriod": "trabajos cerrados o visitados del {from} al {to}",
  "access.ofModels": "modelos de producto {models}",
  "access.ofSites": "instalaciones {sites}",
  "access.notAuditor": "Esta persona no es solo auditor.",
  "access.notAuditorWayOut":
    "Un acceso limita a quien es auditor y nada más; un propietario puede cambiar los papeles.",
  "access.line": "Acceso de auditoría hasta el {day}: {scope}.",
  "access.lineEnding":
    "Acceso de auditoría hasta el {day}, {days, plural, =0 {hoy es el último día} one {# día " +
    "después de hoy} other {# días después de hoy}}: {scope}.",
  "access.lineNoEnd": "Acceso de auditoría sin último día: {scope}.",
  "access.lineWholeFirm": "toda la empresa",
  "access.lineModels":
    "{count, plural, one {modelo de producto {models}} other {modelos de producto {models}}}",
  "access.lineModelCount": "{count} modelos de producto",
  "access.lineSites": "{count, plural, one {# instalación} other {# instalaciones}}",
  "access.link": "Acceso de auditoría",
};
