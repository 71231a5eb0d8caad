export const warrantyCalendar = {
  "reading.title": "Throughput and temperatures",
  "reading.of": "Readings of {serial}",
  "reading.enter": "Enter a reading",
  "reading.note": "One reading a day. The state of the warranty follows from the readings at once.",
  "reading.readOn": "Read on",
  "reading.throughput": "Delivered in all, kWh",
  "reading.since": "Seen since the reading before.",
  "reading.takeBack": "Take back",
  "reading.takeBackOne": "Take back the reading of {day}",
  "reading.none": "No reading has been entered.",
  "warranty.calendar": "Warranty calendar",
  "warranty.years": "Years",
  "warranty.byMonth": "By month",
  "warranty.month": "Month",
  "warranty.thisMonth": "now",
  "warranty.dayKind.register": "register by",
  "warranty.dayKind.ends": "warranty ends",
  "warranty.wholeYear": "The whole year",
  "warranty.day": "Day",
  "warranty.what": "What",
  "warranty.noDay": "Nothing ends, and nothing is to be registered.",
  "warranty.mailSubject":
    "Warranty: {register, plural, one {# unit} other {# units}} to register, {ends, " +
    "plural, one {# warranty ends} other {# warranties end}}",
  "warranty.mailNote":
    "These units are to be registered with their makers within two weeks, or their " +
    "warranty ends within sixty days. Each is told once.",
  "warranty.mailMore": "{count, plural, one {And # more.} other {And # more.}}",
} as const;
