import type { Translation } from "../translation.ts";

export const concessions: Translation<typeof import("../en/concessions.ts").concessions> = {
  "concessions.title": "Concesiones",
  "concessions.note":
    "Permisos para liberar lo que no es conforme, de todos los trabajos. Una concesión vale " +
    "hasta su último día, según el calendario de su emplazamiento, y se retira en su trabajo " +
    "mientras esté abierto.",
  "concessions.text": "Trabajo, emplazamiento, punto o motivo",
  "concessions.state": "Estado",
  "concessions.state.in-force": "vigente",
  "concessions.state.expiring": "termina en 30 días o menos",
  "concessions.state.expired": "terminada",
  "concessions.state.withdrawn": "retirada",
  "concessions.job": "Trabajo",
  "concessions.item": "Punto",
  "concessions.reason": "Motivo",
  "concessions.granted": "Concedida",
  "concessions.grantedBy": "Concedida por",
  "concessions.expires": "Último día",
  "concessions.noEnd": "sin fin",
  "concessions.withdrawnBy": "{who}, {day}",
  "concessions.none": "No se ha concedido ninguna concesión.",
  "concessions.noneNote":
    "Un responsable la concede en la página de un trabajo, para un punto que impide cerrarlo y " +
    "que no es crítico para la seguridad.",
};
