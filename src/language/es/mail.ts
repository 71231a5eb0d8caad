import type { mail as english } from "../en/mail.ts";
import type { Translation } from "../translation.ts";

export const mail: Translation<typeof english> = {
  "mail.greeting": "Hola, {name}:",
  "mail.visit.confirmation.subject": "Su visita del {day}",
  "mail.visit.confirmation.lead": "{firm} ha reservado una visita en su domicilio.",
  "mail.visit.change.subject": "Su visita pasa al {day}",
  "mail.visit.change.lead": "La hora de su visita con {firm} ha cambiado.",
  "mail.visit.cancellation.subject": "Su visita del {day} queda cancelada",
  "mail.visit.cancellation.lead":
    "La visita indicada abajo no tendrá lugar. {firm} se pondrá en contacto con usted.",
  "mail.visit.reminder.subject": "Recordatorio: su visita del {day}",
  "mail.visit.reminder.lead": "Le recordamos su visita con {firm}.",
  "mail.visit.when": "Cuándo",
  "mail.visit.before": "Hasta ahora",
  "mail.visit.where": "Dónde",
  "mail.visit.reference": "Referencia",
  "mail.visit.hours": "{day}, de {from} a {to}",
  "mail.visit.answer": "Si no le viene bien, responda a este correo, por favor.",
  "mail.visit.call": "Si no le viene bien, póngase en contacto con nosotros, por favor.",
  "mail.visit.event": "Visita de {firm}",
  "mail.visit.eventNote": "Referencia {reference}",
};
