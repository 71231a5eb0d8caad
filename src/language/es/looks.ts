import type { Translation } from "../translation.ts";

export const looks: Translation<typeof import("../en/looks.ts").looks> = {
  "looks.title": "Miradas de auditores",
  "looks.note":
    "Lo que los auditores leyeron o se llevaron, una vez al día por persona y dirección. Las " +
    "miradas a un trabajo, sus fotos y papeles están en el registro del trabajo.",
  "looks.person": "Persona",
  "looks.day": "Día (UTC)",
  "looks.what": "Qué",
  "looks.when": "Primera mirada del día",
  "looks.none": "Ningún auditor ha mirado nada todavía.",
  "looks.noneWayOut": "Invite a un auditor entre las personas y diga qué puede ver.",
};
