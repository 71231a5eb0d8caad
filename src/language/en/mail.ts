/** Mails to customers. */
export const mail = {
  "mail.greeting": "Dear {name},",
  "mail.visit.confirmation.subject": "Your visit on {day}",
  "mail.visit.confirmation.lead": "{firm} has booked a visit at your address.",
  "mail.visit.change.subject": "Your visit has moved to {day}",
  "mail.visit.change.lead": "The time of your visit by {firm} has changed.",
  "mail.visit.cancellation.subject": "Your visit on {day} is cancelled",
  "mail.visit.cancellation.lead":
    "The visit below will not take place. {firm} will be in touch about what comes next.",
  "mail.visit.reminder.subject": "Reminder: your visit on {day}",
  "mail.visit.reminder.lead": "This is a reminder of your visit by {firm}.",
  "mail.visit.when": "When",
  "mail.visit.before": "Until now",
  "mail.visit.where": "Where",
  "mail.visit.reference": "Reference",
  "mail.visit.hours": "{day}, {from} to {to}",
  "mail.visit.answer": "If this does not suit you, please answer this mail.",
  "mail.visit.call": "If this does not suit you, please get in touch with us.",
  "mail.visit.event": "Visit by {firm}",
  "mail.visit.eventNote": "Reference {reference}",
} as const;
