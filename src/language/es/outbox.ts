import type { Translation } from "../translation.ts";

export const outbox: Translation<typeof import("../en/outbox.ts").outbox> = {
  "outbox.title": "Correo",
  "outbox.note":
    "Todos los correos que escribe Holdpoint, primero los más nuevos. Salen por sí solos; se " +
    "cuenta cada intento, y a un servidor que dice «más tarde» se le vuelve a preguntar cada vez " +
    "menos.",
  "outbox.noServer":
    "No hay servidor de correo, así que los correos se quedan aquí. Descargue un correo como " +
    "archivo, envíelo desde su programa de correo y diga «Enviado a mano». El operador indica " +
    "un servidor con SMTP_URL.",
  "outbox.all": "Todo el correo",
  "outbox.mails": "Bandeja de salida",
  "outbox.none": "Aquí no hay correos.",
  "outbox.noneWayOut":
    "Al reservar una visita se escribe uno al cliente, si se conoce su dirección. O mire otro " +
    "estado.",
  "outbox.subject": "Asunto",
  "outbox.toPart": "Parte de la dirección",
  "outbox.to": "Para",
  "outbox.from": "En nombre de",
  "outbox.kind": "Acerca de",
  "outbox.replyTo": "Las respuestas van a",
  "outbox.state": "Estado",
  "outbox.attempts": "Intentos",
  "outbox.lastAttempt": "el último el {time}",
  "outbox.written": "Escrito",
  "outbox.sent": "Enviado",
  "outbox.next": "Próximo intento",
  "outbox.waits.server": "le espera a usted: no hay servidor de correo",
  "outbox.sentAt": "enviado {time}",
  "outbox.tries": "{count, plural, =0 {ningún intento} one {# intento} other {# intentos}}",
  "outbox.settings.quietToHint": "Puede ser del día siguiente.",
  "outbox.text": "Texto",
  "outbox.attachments": "Adjuntos",
  "outbox.file": "Descargar como archivo (.eml)",
  "outbox.underWay": "Se está enviando en este momento. Vuelva a mirar dentro de un rato.",
  "outbox.messageId": "Message-ID",
  "outbox.state.waiting": "En espera",
  "outbox.state.held": "Retenido",
  "outbox.state.sent": "Enviado",
  "outbox.state.failed": "Fallido",
  "outbox.state.returned": "Devuelto",
  "outbox.state.cancelled": "Abandonado",
  "outbox.kind.notice": "Aviso",
  "outbox.kind.invitation": "Invitación",
  "outbox.kind.document": "Documento",
  "outbox.kind.visit-confirmation": "Visita reservada",
  "outbox.kind.visit-change": "Visita cambiada",
  "outbox.kind.visit-cancellation": "Visita cancelada",
  "outbox.kind.visit-reminder": "Recordatorio de visita",
  "outbox.waits.its-time": "se intenta el {time}",
  "outbox.waits.a-run": "se intenta en uno o dos minutos",
  "outbox.waits.quiet-hours": "espera a que acaben las horas de silencio: {time}",
  "outbox.waits.address": "espera a que se arregle la dirección del cliente",
  "outbox.waits.answer": "espera la respuesta del servidor, como mucho hasta el {time}",
  "outbox.act.resend": "Enviar de nuevo",
  "outbox.act.attempt": "Intentar ahora",
  "outbox.act.hold": "Retener",
  "outbox.act.release": "Dejar salir",
  "outbox.act.cancellation": "Abandonar",
  "outbox.act.sent-by-hand": "Enviado a mano",
  "outbox.tellings": "A punto de escribirse",
  "outbox.tellingsNote":
    "Estas visitas se han reservado, cambiado o cancelado hace poco. Se avisa al cliente cuando " +
    "nada ha cambiado durante un rato, tal como esté la visita entonces.",
  "outbox.due": "Se escribe el {time}",
  "outbox.visitCancelled": "cancelada",
  "outbox.known": "El cliente lo sabe",
  "outbox.blocked.no-address": "sin dirección de correo",
  "outbox.blocked.failing-address": "la dirección falla",
  "outbox.failing": "Direcciones que fallan",
  "outbox.failingNote":
    "Un servidor las ha rechazado para siempre, así que ya no se envía nada allí. Ponga otra " +
    "dirección al cliente, o diga que esta vuelve a funcionar.",
  "outbox.since": "Desde el {time}.",
  "outbox.mended": "Vuelve a funcionar",
  "outbox.report": "¿Ha vuelto un correo?",
  "outbox.reportText": "El informe de entrega",
  "outbox.reportHint":
    "Pegue el mensaje entero tal como llegó, con su cabecera (en la mayoría de los programas: " +
    "ver el código fuente).",
  "outbox.reportTake": "Marcar el correo",
  "outbox.settings.link": "Ajustes del correo",
  "outbox.settings.title": "Correos a los clientes",
  "outbox.settings.sender": "En nombre de quién",
  "outbox.settings.senderNote":
    "Los correos salen de {address}; esa dirección la pone el operador.",
  "outbox.settings.senderName": "Nombre del remitente",
  "outbox.settings.senderNameHint": "Si falta, el nombre de la empresa.",
  "outbox.settings.replyToHint": "Una dirección que alguien lea.",
  "outbox.settings.kinds": "Qué correos salen",
  "outbox.settings.confirmation": "se reserva una visita",
  "outbox.settings.change": "se cambia una visita",
  "outbox.settings.cancellation": "se cancela una visita",
  "outbox.settings.reminder": "un recordatorio, el día laborable anterior a la visita",
  "outbox.settings.times": "Cuándo",
  "outbox.settings.clock": "Todas las horas son del reloj de la empresa ({zone}).",
  "outbox.settings.holdBack": "Retener (minutos)",
  "outbox.settings.holdBackHint":
    "Los cambios en este tiempo se cuentan juntos, en un solo correo.",
  "outbox.settings.reminderHour": "Recordatorio a las",
  "outbox.settings.reminderHourHint": "El último día laborable en el lugar de la visita.",
  "outbox.settings.quietFrom": "Silencio desde",
  "outbox.settings.quietHint":
    "Los correos a los clientes esperan a que acabe el silencio. Deje ambos vacíos si no hay.",
  "outbox.settings.quietTo": "Silencio hasta",
};
