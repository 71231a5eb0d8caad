export const held = {
  "held.title": "Held",
  "held.ofAll": "Of all jobs",
  "held.note":
    "What tablets kept that has no effect yet. Nothing is lost: take away what stands in " +
    "the way and apply it, or dismiss it with a reason.",
  "held.tag": "held",
  "held.noJob": "No job of your firm",
  "held.keptBy": "kept by {name} at",
  "held.keptByStranger": "kept by a person who is not in your firm at",
  "held.byTablet": "by the tablet's clock",
  "held.sentBy": "sent by {name}",
  "held.received": "received",
  "held.apply": "Apply it now",
  "held.dismissIt": "Dismiss it",
  "held.reason": "Reason (stays on the record)",
  "held.dismiss": "Dismiss",
  "held.none": "Nothing is held.",
  "held.noneNote":
    "What a tablet sends for a job that is closed, or cannot be read as its item asks, " +
    "waits here for a decision.",
  "held.quarantine": "what is in quarantine",
  "held.quarantineNote":
    "What cannot be read at all, or came a second time with another content, is in quarantine " +
    "and has no effect.",
  "held.kind.stageTime": "Time of a stage",
  "held.kind.snag": "Snag",
  "held.kind.message": "Message",
  "held.kind.closeOut": "Close-out asked for",
} as const;
