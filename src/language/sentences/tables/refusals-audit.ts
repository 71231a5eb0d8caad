/** What auditors are refused, and those who give them access. */
export const refusalsAudit = {
  "{person} is not an auditor alone, so an access would limit nothing.":
    "{person} no es solo auditor, así que un acceso no limitaría nada.",
  "{why:said} Leave the role of auditor only, then give it.":
    "{why} Deje solo el papel de auditor y dé el acceso después.",
  "An auditor from outside needs a last day.": "Un auditor externo necesita un último día.",
  "must be at most {count} days after the first":
    "debe ser como mucho {count} días después del primero",
  "names a product model that your firm does not have":
    "nombra un modelo de producto que su empresa no tiene",
  "names a site that your firm does not have": "nombra una instalación que su empresa no tiene",
  "names more than {count} sites": "nombra más de {count} instalaciones",
  "There is no site {reference}.": "No hay ninguna instalación {reference}.",
  "There is no access to withdraw.": "No hay ningún acceso que retirar.",
  "is for an auditor alone": "es para quien es solo auditor",
  "must not name anything twice": "no debe nombrar nada dos veces",
  "No access to {firm} was given to you. Ask {whom} for one.":
    "No se le dio ningún acceso a {firm}. Pida uno a {whom}.",
  "Your access to {firm} was withdrawn on {day}. Ask {whom} for a new one.":
    "Su acceso a {firm} se retiró el {day}. Pida uno nuevo a {whom}.",
  "Your access to {firm} ended on {day}. Ask {whom} for a new one.":
    "Su acceso a {firm} terminó el {day}. Pida uno nuevo a {whom}.",
  "Your access to {firm} begins on {day}. Ask {whom} to have it sooner.":
    "Su acceso a {firm} empieza el {day}. Pida a {whom} tenerlo antes.",
  "More than {count} jobs were closed in that time.":
    "Se cerraron más de {count} trabajos en ese tiempo.",
  "No job that stands closed was closed in it.":
    "Ningún trabajo que sigue cerrado se cerró en ese tiempo.",
  "The job is not one of this sample.": "El trabajo no es de esta muestra.",
  "A finding of a sample is of the kind audit.":
    "Un hallazgo de una muestra es de la clase auditoría.",
  "You have no access at present": "Ahora no tiene acceso",
  "Ask whom the problem names; an owner or manager of the firm can give a new access.":
    "Pregunte a quien nombra el problema; un propietario o responsable de la empresa puede dar un acceso nuevo.",
} as const;
