export const due = {
  "due.title": "Firmware due",
  "due.which": "Which sites",
  "due.overdue": "Overdue",
  "due.safety": "Safety",
  "due.region": "Region",
  "due.from": "Due from",
  "due.before": "Due before",
  "due.counts":
    "{units, plural, one {# unit} other {# units}} at {sites, plural, one {# site} other {# " +
    "sites}} below target; {overdue} past the day; besides, {unknown, plural, one {# unit} " +
    "other {# units}} with a level that is unknown or cannot be ordered.",
  "due.blocked": "blocked",
  "due.unit": "Unit",
  "due.fromLevel": "From",
  "due.toLevel": "To",
  "due.due": "Due",
  "due.visit": "Visit",
  "due.noVisit": "none booked",
  "due.daysOver": "{days, plural, one {# day over} other {# days over}}",
  "due.daysLeft": "{days, plural, one {# day left} other {# days left}}",
  "due.today": "today",
  "due.readLevel": "read the level",
  "due.compare": "compare by hand",
} as const;
