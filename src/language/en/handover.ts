export const handover = {
  "handover.link": "Hand over",
  "handover.title": "Your papers from {firm}",
  "handover.what":
    "For job {job}: the handover pack to keep at the units, and the record of everything " +
    "that was checked. Save both, and print the pack.",
  "handover.reopened":
    "The job was reopened since. Until it is closed again the papers are marked as drafts.",
  "handover.until": "This link opens until {day}. Ask the firm for a new one after that.",
  "handover.emergency":
    "Fire, smoke, water or damage: keep clear and call the emergency number. The handover " +
    "pack says what else to do; the maker's instructions and local codes prevail.",
  "handover.jobTitle": "Hand over {job}",
  "handover.made": "The link",
  "handover.once": "It is shown this once. Whoever has it can read the papers.",
  "handover.address": "Address",
  "handover.new": "A link for the customer",
  "handover.newNote":
    "It opens handover pack and commissioning record without an account, until it runs out " +
    "or you end it. Making it and opening it stay on the job's ledger.",
  "handover.days": "Days that it opens",
  "handover.language": "Language",
  "handover.languageHint": "The customer's own, else the firm's, unless you choose.",
  "handover.mailTo": "Send it to {address}",
  "handover.noAddress": "The customer has no address that takes mail.",
  "handover.make": "Make the link",
  "handover.notClosed": "The job is not closed: a draft is not handed over.",
  "handover.links": "Links so far",
  "handover.live": "open",
  "handover.liveUntil": "until {at}",
  "handover.ended": "ended",
  "handover.ranOut": "ran out",
  "handover.madeBy": "{person}, {at}",
  "handover.mailed": "by mail",
  "handover.opened":
    "{count, plural, =0 {not opened yet} one {a paper opened once} other {papers opened # " +
    "times}}",
  "handover.last": "last {at}",
  "handover.end": "End",
  "handover.endOne": "End the link made {at}",
  "handover.none": "Nobody was given a link.",
  "handover.noneWayOut": "Make one above, or print the papers.",
  "handover.mail.subject": "Your papers from {firm}",
  "handover.mail.lead":
    "{firm} has finished the work of job {job}. Your handover pack and the record of what " +
    "was checked are here:",
  "handover.mail.open": "Open the papers",
  "handover.mail.until": "The link opens until {day}. Please save the papers before then.",
  "handover.mail.care":
    "Keep the pack where it can be reached from outside the room with the units. In an " +
    "emergency keep clear and call the emergency number.",
} as const;
