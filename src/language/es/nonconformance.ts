import type { Translation } from "../translation.ts";

export const nonconformance: Translation<typeof import("../en/nonconformance.ts").nonconformance> =
  {
    "nonconformance.title": "No conformidades",
    "nonconformance.what": "Qué no es conforme",
    "nonconformance.kind": "Clase",
    "nonconformance.kind.firmware-update": "actualización de firmware",
    "nonconformance.kind.audit": "hallazgo de auditoría",
    "nonconformance.kind.work": "trabajo",
    "nonconformance.kind.material": "material",
    "nonconformance.kind.other": "otra",
    "nonconformance.state": "Estado",
    "nonconformance.state.open": "abierta",
    "nonconformance.state.contained": "contenida",
    "nonconformance.state.closed": "cerrada",
    "nonconformance.opened": "Abierta",
    "nonconformance.dueOn": "Vence el",
    "nonconformance.overdue": "atrasada",
    "nonconformance.overdueOnly": "Solo atrasadas",
    "nonconformance.next.containment": "sigue: evitar que haga más daño",
    "nonconformance.next.cause": "sigue: hallar la causa",
    "nonconformance.next.correction": "sigue: cambiar lo que la causó",
    "nonconformance.next.effectCheck": "sigue: ver si el cambio funciona",
    "nonconformance.none": "No hay nada registrado aquí.",
    "nonconformance.noneNote":
      "Una actualización fallida abre una por sí sola; cualquier otra cosa no conforme se " +
      "abre abajo.",
    "nonconformance.new": "Abrir una",
    "nonconformance.open": "Abrirla",
    "nonconformance.containment": "Qué evita que haga más daño",
    "nonconformance.cause": "Causa",
    "nonconformance.correction": "Qué se cambió",
    "nonconformance.effectCheck": "Cómo se vio que el cambio funciona",
    "nonconformance.owner": "Quién se encarga",
    "nonconformance.all": "Todas las no conformidades",
    "nonconformance.needsCause": "Diga cuál fue la causa antes de cerrarla.",
    "nonconformance.needsCheck": "Diga cómo se vio que el cambio funciona antes de cerrarla.",
  };
