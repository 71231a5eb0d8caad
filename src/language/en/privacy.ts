/** Personal data: how long what is kept, what is held about a customer, and its erasure. */
export const privacy = {
  "privacy.title": "Personal data",
  "privacy.note":
    "How long your firm keeps what is no part of the technical record, and what was erased. " +
    "What the law asks of you, your own adviser says; this page does what you decide.",
  "privacy.saved": "Saved. What is older goes with the next daily run.",
  "privacy.kept": "How long it is kept",
  "privacy.keptNote":
    "In months. Leave a field empty to keep it for good. Readings, verdicts, photos, documents " +
    "and ledgers stay as long as your firm does.",
  "privacy.kind.mails": "Mails",
  "privacy.kind.messages": "Messages between office and crew",
  "privacy.kind.changes": "History of changes",
  "privacy.kind.customers": "Archived customers",
  "privacy.hint.mails": "Then recipient, text and attachments go; that a mail went out stays.",
  "privacy.hint.messages": "Then the words go; who wrote when stays.",
  "privacy.hint.changes": "Then what stood there before is gone and cannot be put back.",
  "privacy.hint.customers": "Then they stand here to be erased. Nobody is erased by itself.",
  "privacy.save": "Save",
  "privacy.months": "{count, plural, one {# month} other {# months}}",
  "privacy.forGood": "For good",
  "privacy.old": "Archived for longer than you keep them",
  "privacy.archivedOn": "archived on {day}",
  "privacy.erased": "Erased customers",
  "privacy.customer": "Customer",
  "privacy.when": "When",
  "privacy.by": "By",
  "privacy.reason": "Reason",
  "privacy.sites": "Sites",
  "privacy.jobs": "Jobs",
  "privacy.mails": "Mails",
  "privacy.taken": "Lists taken away",
  "privacy.takenNote":
    "Each list that somebody exports is kept with the day, the filters and the number of rows.",
  "privacy.none": "Nobody has been erased.",
  "privacy.noneWayOut":
    "To erase a customer who asks for it, archive the customer and open “Erase” on its page.",
  "privacy.link": "Personal data",
  "privacy.erase": "Erase",
  "privacy.done": "Erased {when} by {who}.",
  "privacy.after":
    "The records of the jobs still verify. Copies in backups and on tablets go when those are " +
    "replaced; bags that were exported before go within seven days from here, and not from " +
    "whoever fetched them.",
  "privacy.goes": "What goes, for good",
  "privacy.goesCustomer": "Name, e-mail address, phone, postal address and note of the customer",
  "privacy.goesSites":
    "{count, plural, =0 {No site} one {Name and street of # site; its place to ten kilometres} " +
    "other {Name and street of # sites; their places to ten kilometres}}",
  "privacy.goesMails":
    "{count, plural, =0 {Mails that name the address} one {# mail, and others that name the " +
    "address} other {# mails, and others that name the address}}",
  "privacy.goesMessages": "Messages and notes about the visits, links to papers, drawn papers",
  "privacy.goesChanges": "What stood there before it was changed or merged",
  "privacy.goesWritten":
    "What people wrote on the jobs: names beside signatures (those of your own people stay), " +
    "notes, snags, reasons for concessions, cancellations, reopenings and dismissals",
  "privacy.goesWords":
    "The customer’s name, if of eight letters or more, and addresses, out of what was written " +
    "about jobs, units, nonconformances and warranty claims; the rest of it stays",
  "privacy.stays": "What stays",
  "privacy.staysRecord":
    "{count, plural, =0 {No job} one {# job} other {# jobs}} with readings, verdicts, photos, " +
    "serial numbers and ledger, which still verify",
  "privacy.staysSignatures":
    "{count, plural, =0 {No drawn signature} one {# signature as it was drawn, without the name: " +
    "it is proof} other {# signatures as they were drawn, without the names: they are proof}}",
  "privacy.staysClear":
    "{count, plural, one {# entry of the ledger} other {# entries of the ledger}} from the time " +
    "when names and reasons were written into it; they and what the record says of them stay: " +
    "to change a word would break the proof",
  "privacy.staysHashes":
    "{count, plural, one {The plain hash of # note} other {The plain hashes of # notes}} of old; " +
    "the words go, but short ones could be guessed from it",
  "privacy.staysDocuments":
    "{count, plural, =0 {No document} one {# document: remove it on its job’s page first, if " +
    "it names the person} other {# documents: remove first, on their jobs’ pages, what names " +
    "the person}}",
  "privacy.staysElsewhere":
    "Photos as they were taken, serial numbers and readings; hashes of what was erased, which " +
    "say nothing without their salts; backups until replaced",
  "privacy.take": "Take away all that is held",
  "privacy.takeNote": "As JSON, for the customer who asks.",
  "privacy.unitsStand":
    "{count, plural, one {# unit still stands} other {# units still stand}} at the customer’s " +
    "sites. Once erased, nobody can be told there of a safety update or a recall.",
  "privacy.reasonHint": "Without names; it stays.",
  "privacy.confirm": "Type {reference} to confirm",
  "privacy.confirmProblem": "Type {reference}, as it stands above.",
  "privacy.noUndo": "This cannot be undone.",
  "privacy.eraseNow": "Erase for good",
  "privacy.archiveFirst":
    "Before that, close or cancel the jobs, archive the sites, then the customer:",
} as const;
