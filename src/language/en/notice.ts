export const notice = {
  "notice.title": "Firmware due",
  "notice.link": "Notices",
  "notice.pageTitle": "Notices",
  "notice.subject":
    "Firmware due at {sites, plural, one {# site} other {# sites}}, {overdue, plural, one " +
    "{# unit} other {# units}} overdue",
  "notice.figures":
    "{units, plural, one {# unit is} other {# units are}} below target at {sites, plural, " +
    "one {# site} other {# sites}}; {overdue} past the day.",
  "notice.onlySafety": "As you asked, only what is below a safety release.",
  "notice.unclear":
    "Besides, {count, plural, one {# unit has a level that is} other {# units have levels " +
    "that are}} unknown or cannot be ordered: read them at the next visit.",
  "notice.escalated":
    "{count, plural, one {# site is} other {# sites are}} long past or below a safety " +
    "release, and nobody has booked a visit:",
  "notice.freeSlots": "Your next hours with nothing booked:",
  "notice.fromTo": "{from} to {to}",
  "notice.due": "due {day}",
  "notice.lastDay": "today is the last day",
  "notice.visitOn": "Visit booked: {job} on {day}",
  "notice.noVisit": "No visit booked",
  "notice.more": "And {count, plural, one {# more site} other {# more sites}}.",
  "notice.wholeList": "The whole list, with its filters:",
  "notice.caution":
    "Before an update: follow the maker's instructions and isolate where they say so. Local " +
    "codes and licensed practice prevail.",
  "notice.wish": "Firmware notices",
  "notice.wish.all": "all that concerns me",
  "notice.wish.safety": "safety releases only",
  "notice.day": "Day",
  "notice.kind": "About",
  "notice.kind.firmware-due": "Firmware",
  "notice.kind.warranty-due": "Warranty",
  "notice.subjectHead": "Notice",
  "notice.new": "new",
  "notice.dueByDay": "length of the due list by day",
  "notice.none": "You have had no notice.",
  "notice.exportAll": "Export who was given which notice as CSV",
  "notice.noneNote":
    "Once a day, when firmware that concerns you is due, a notice stands here and goes to " +
    "your mail.",
} as const;
