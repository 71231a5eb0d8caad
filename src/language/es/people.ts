import type { Translation } from "../translation.ts";

export const people: Translation<typeof import("../en/people.ts").people> = {
  "people.title": "Personas",
  "people.name": "Nombre",
  "people.namePart": "Parte del nombre",
  "people.role": "Papel",
  "people.roles": "Papeles",
  "people.standing": "Estado",
  "people.invited": "invitado",
  "people.ranOut": "la invitación ha caducado",
  "people.inviteAgain": "Enviar una invitación nueva",
  "people.hasAccount": "inicia sesión",
  "people.hasTwoStep": "segundo paso",
  "people.gone": "Ya no inician sesión:",
  "people.invite": "Invitar a una persona",
  "people.inviteNote":
    "Un correo con un enlace que abre la cuenta una vez; la persona pone su propia " +
    "contraseña.",
  "people.auditUntil": "Último día en que el auditor ve la empresa",
  "people.auditUntilHint": "Toda la empresa desde hoy; después se puede limitar lo que ve.",
  "people.sendInvitation": "Enviar la invitación",
  "people.twoStepRoles": "Segundo paso al iniciar sesión",
  "people.twoStepNote":
    "Las personas con estos papeles lo configuran tras su próximo inicio de sesión y antes " +
    "no pueden hacer nada.",
  "people.all": "Todas las personas",
  "people.signsIn": "Inicia sesión; sin la marca terminan todas sus sesiones",
  "people.editNote": "Cambiar los papeles cierra todas las sesiones de la persona.",
  "people.lostDevice":
    "¿Ha perdido el dispositivo y los códigos? Asegúrese de viva voz de que es de verdad " +
    "esta persona.",
  "people.resetTwoStep": "Quitar el segundo paso",
};
